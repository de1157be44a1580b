#include "tests/support/postgres_server.h"

#include <pwd.h>
#include <unistd.h>

#include <algorithm>
#include <cstdlib>
#include <fstream>
#include <iterator>
#include <stdexcept>
#include <vector>

namespace tonemend::testing {
namespace {

namespace fs = std::filesystem;

// The newest that the package has put there.
fs::path server_programs() {
    std::vector<fs::path> found;
    std::error_code none;
    for (const auto& version : fs::directory_iterator("/usr/lib/postgresql", none))
        if (fs::exists(version.path() / "bin/initdb")) found.push_back(version.path() / "bin");
    if (found.empty()) throw std::runtime_error("PostgreSQL is not installed (package postgresql)");
    return *std::max_element(found.begin(), found.end());
}

}  // namespace

PostgresServer& PostgresServer::running() {
    static PostgresServer server;
    return server;
}

PostgresServer::PostgresServer() : programs_(server_programs()) {
    std::string name = "/tmp/tonemend-postgres-XXXXXX";  // short: a socket's path has 107 bytes
    if (mkdtemp(name.data()) == nullptr) throw std::runtime_error("no folder for the server");
    folder_ = name;
    // The server refuses to run as root.
    if (const passwd* owner = geteuid() == 0 ? getpwnam("postgres") : nullptr)
        if (chown(folder_.c_str(), owner->pw_uid, owner->pw_gid) != 0) throw std::runtime_error("chown");
    run("initdb -D " + (folder_ / "data").string() + " -U tester -A trust -E UTF8 --locale=C --no-sync");
    run("pg_ctl -D " + (folder_ / "data").string() + " -w -l " + (folder_ / "log").string() + " -o \"-F -k " +
        folder_.string() + " -c listen_addresses=''\" start");
}

PostgresServer::~PostgresServer() {
    try {
        run("pg_ctl -D " + (folder_ / "data").string() + " -m immediate stop");
    } catch (const std::exception&) {
        // It is gone already.
    }
    std::error_code ignored;
    fs::remove_all(folder_, ignored);
}

void PostgresServer::run(const std::string& command) const {
    const std::string said = (folder_ / "said").string();
    const std::string as_owner =
        geteuid() == 0 ? "setpriv --reuid=postgres --regid=postgres --clear-groups " : "";
    const std::string whole = "cd " + folder_.string() + " && " + as_owner + programs_.string() + "/" +
                              command + " >" + said + " 2>&1 </dev/null";
    if (std::system(whole.c_str()) == 0) return;
    std::ifstream in(said);
    throw std::runtime_error(command + ": " + std::string(std::istreambuf_iterator<char>(in), {}));
}

std::string PostgresServer::new_database() {
    const std::string name = "shop" + std::to_string(++databases_);
    run("createdb -h " + folder_.string() + " -U tester " + name);
    return "postgresql://tester@/" + name + "?host=" + folder_.string();
}

}  // namespace tonemend::testing
