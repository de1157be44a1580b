#include "record/store/postgres_database.h"

#include <fmt/format.h>
#include <libpq-fe.h>

#include <charconv>
#include <cstdlib>
#include <string_view>

#include "picture/text_line.h"

namespace tonemend {
namespace {

// Object identifiers of the types that the store's columns have (PostgreSQL's catalogue, pg_type.dat).
constexpr Oid bytes_type = 17, whole_type = 20, small_whole_type = 23, number_type = 701;
// Any number serves, as long as no other program takes the same one.
constexpr const char* writers_lock = "SELECT pg_advisory_xact_lock(7408296120547)";

struct FreeResult {
    void operator()(PGresult* result) const { PQclear(result); }
};
using Result = std::unique_ptr<PGresult, FreeResult>;

// `?` outside quotation marks becomes $1, $2, …
std::string numbered(const std::string& sql) {
    std::string text;
    int place = 0;
    bool quoted = false;
    for (const char c : sql) {
        if (c == '\'') quoted = !quoted;
        if (c == '?' && !quoted)
            text += fmt::format("${}", ++place);
        else
            text += c;
    }
    return text;
}

std::string hex_of(const SqlBytes& bytes) {
    static constexpr std::string_view digits = "0123456789abcdef";
    std::string text = "\\x";
    text.reserve(2 + 2 * bytes.size());
    for (const std::byte byte : bytes) {
        text += digits[std::to_integer<std::size_t>(byte >> 4)];
        text += digits[std::to_integer<std::size_t>(byte & std::byte{15})];
    }
    return text;
}

SqlBytes bytes_of(const char* text) {
    std::size_t count = 0;
    unsigned char* raw = PQunescapeBytea(reinterpret_cast<const unsigned char*>(text), &count);
    if (raw == nullptr) throw std::bad_alloc();
    const auto* bytes = reinterpret_cast<const std::byte*>(raw);
    SqlBytes result(bytes, bytes + count);
    PQfreemem(raw);
    return result;
}

std::string text_for_server(const SqlValue& value) {
    if (const auto* whole = std::get_if<std::int64_t>(&value)) return std::to_string(*whole);
    if (const auto* number = std::get_if<double>(&value))
        return fmt::format("{}", *number);  // shortest exact
    if (const auto* text = std::get_if<std::string>(&value)) return *text;
    return hex_of(std::get<SqlBytes>(value));
}

SqlValue value_from_server(const PGresult* result, int row, int column) {
    if (PQgetisnull(result, row, column) == 1) return std::monostate{};
    const char* text = PQgetvalue(result, row, column);
    switch (PQftype(result, column)) {
        case whole_type:
        case small_whole_type:
            return static_cast<std::int64_t>(std::strtoll(text, nullptr, 10));
        case number_type: {
            double number = 0;
            const std::string_view digits = text;
            std::from_chars(digits.data(), digits.data() + digits.size(), number);
            return number;
        }
        case bytes_type:
            return bytes_of(text);
        default:
            return std::string(text, static_cast<std::size_t>(PQgetlength(result, row, column)));
    }
}

class PostgresDatabase : public Database {
  public:
    explicit PostgresDatabase(const std::string& connection)
        : connection_(PQconnectdb(connection.c_str()), PQfinish) {
        if (PQstatus(connection_.get()) != CONNECTION_OK)
            throw InputError(fmt::format(
                "{}: cannot be reached ({}); does the server run, and are user, database and password right?",
                place(), one_line(PQerrorMessage(connection_.get()))));
        PQsetNoticeProcessor(
            connection_.get(), [](void*, const char*) {}, nullptr);
        run_script("SET client_encoding = 'UTF8'; SET synchronous_commit = on; SET lock_timeout = '10s'");
    }

    Dialect dialect() const override { return Dialect::postgres; }

    std::string place() const override {
        const auto known = [&](const char* part) { return std::string(part == nullptr ? "" : part); };
        return fmt::format("postgresql://{}/{}", known(PQhost(connection_.get())),
                           known(PQdb(connection_.get())));
    }

    void query(const std::string& sql, const SqlRow& values,
               const std::function<void(const SqlRow&)>& take) override {
        std::vector<std::string> texts(values.size());
        std::vector<const char*> parameters(values.size(), nullptr);
        for (std::size_t i = 0; i < values.size(); ++i) {
            if (std::holds_alternative<std::monostate>(values[i])) continue;
            texts[i] = text_for_server(values[i]);
            parameters[i] = texts[i].c_str();
        }
        if (PQsendQueryParams(connection_.get(), numbered(sql).c_str(), static_cast<int>(values.size()),
                              nullptr, parameters.data(), nullptr, nullptr, 0) == 0)
            refuse(nullptr);
        // Row by row, so that a large table does not have to fit into memory.
        PQsetSingleRowMode(connection_.get());
        try {
            while (const Result result{PQgetResult(connection_.get())}) {
                check(result.get());
                SqlRow row(static_cast<std::size_t>(PQnfields(result.get())));
                for (int r = 0; r < PQntuples(result.get()); ++r) {
                    for (std::size_t i = 0; i < row.size(); ++i)
                        row[i] = value_from_server(result.get(), r, static_cast<int>(i));
                    take(row);
                }
            }
        } catch (...) {
            while (const Result rest{PQgetResult(connection_.get())}) {
            }
            throw;
        }
    }

    void run_script(const std::string& sql) override {
        const Result result(PQexec(connection_.get(), sql.c_str()));
        check(result.get());
    }

    void begin(Access access) override {
        if (access == Access::reading) return run_script("BEGIN ISOLATION LEVEL REPEATABLE READ READ ONLY");
        run_script("BEGIN");
        try {
            run_script(writers_lock);
            run_script("SET CONSTRAINTS ALL DEFERRED");
        } catch (...) {
            roll_back();
            throw;
        }
    }
    void commit() override {
        const Result result(PQexec(connection_.get(), "COMMIT"));
        check(result.get());
        // A transaction in which something had failed is rolled back, and the server calls that no error.
        if (std::string_view(PQcmdStatus(result.get())) != "COMMIT")
            throw InputError(fmt::format("{}: did not take the changes; try again", place()));
    }
    void roll_back() noexcept override { const Result result(PQexec(connection_.get(), "ROLLBACK")); }

  private:
    [[noreturn]] void refuse(const PGresult* result) const {
        const char* state = result == nullptr ? nullptr : PQresultErrorField(result, PG_DIAG_SQLSTATE);
        const std::string_view code = state == nullptr ? "" : state;
        if (PQstatus(connection_.get()) != CONNECTION_OK)
            throw InputError(
                fmt::format("{}: the connection is lost; try again when the server is there", place()));
        if (code == "55P03")  // lock_not_available
            throw InputError(
                fmt::format("{}: another program holds the store; try again when it has done", place()));
        if (code == "53100")  // disk_full
            throw InputError(fmt::format("{}: the server's disk is full; make room and try again", place()));
        if (code == "42501" || code == "25006")  // insufficient_privilege, read_only_sql_transaction
            throw InputError(fmt::format("{}: you may not write there; ask who keeps the server", place()));
        throw InputError(fmt::format("{}: {}", place(), one_line(PQerrorMessage(connection_.get()), 300)));
    }

    void check(const PGresult* result) const {
        switch (PQresultStatus(result)) {
            case PGRES_COMMAND_OK:
            case PGRES_TUPLES_OK:
            case PGRES_SINGLE_TUPLE:
                return;
            default:
                refuse(result);
        }
    }

    std::unique_ptr<PGconn, void (*)(PGconn*)> connection_;
};

}  // namespace

std::unique_ptr<Database> open_postgres(const std::string& connection) {
    const bool has_limit = connection.find("connect_timeout=") != std::string::npos;
    if (has_limit) return std::make_unique<PostgresDatabase>(connection);
    const char* joint = connection.find('?') == std::string::npos ? "?" : "&";
    return std::make_unique<PostgresDatabase>(connection + joint + "connect_timeout=10");
}

}  // namespace tonemend
