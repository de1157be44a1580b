#pragma once

#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "picture/input_error.h"
#include "record/store/sql_value.h"

namespace tonemend {

/// The store's own file or tables are damaged; the text says so and names the cure.
class DamagedStore : public InputError {
  public:
    using InputError::InputError;
};

/// A connection to a database that speaks SQL. Belongs to one thread at a time. In every statement `?` stands
/// for a value. What fails throws InputError (no room, no permission, no connection, another program holds it
/// too long) or DamagedStore.
class Database {
  public:
    enum class Dialect { sqlite, postgres };
    /// Writing: alone among those who write, from beginning to end. Reading: sees one moment throughout.
    enum class Access { reading, writing };

    Database() = default;
    virtual ~Database() = default;
    Database(const Database&) = delete;
    Database& operator=(const Database&) = delete;

    virtual Dialect dialect() const = 0;
    /// For people: the file, or server and database without the password.
    virtual std::string place() const = 0;
    /// Hands each row to `take`, one after another; `take` must not use the database.
    virtual void query(const std::string& sql, const SqlRow& values,
                       const std::function<void(const SqlRow&)>& take) = 0;
    /// Several statements without values.
    virtual void run_script(const std::string& sql) = 0;
    virtual void begin(Access access) = 0;
    /// When this returns the changes are on the disk.
    virtual void commit() = 0;
    /// Never throws.
    virtual void roll_back() noexcept = 0;

    std::vector<SqlRow> rows(const std::string& sql, const SqlRow& values = {});
    /// The first row, if there is one.
    std::optional<SqlRow> row(const std::string& sql, const SqlRow& values = {});
    /// A statement that yields no rows of interest.
    void execute(const std::string& sql, const SqlRow& values = {});
};

/// begin to commit; rolls back when it goes away before.
class Transaction {
  public:
    Transaction(Database& database, Database::Access access) : database_(&database) {
        database.begin(access);
    }
    ~Transaction() {
        if (database_ != nullptr) database_->roll_back();
    }
    Transaction(const Transaction&) = delete;
    Transaction& operator=(const Transaction&) = delete;
    void commit() {
        database_->commit();
        database_ = nullptr;
    }

  private:
    Database* database_;
};

}  // namespace tonemend
