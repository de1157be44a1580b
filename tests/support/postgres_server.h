#pragma once

#include <filesystem>
#include <string>

namespace tonemend::testing {

/// A PostgreSQL server of the distribution's package, started for this process in a folder of its own, with a
/// socket there and no network; stopped and gone with the process. It does not wait for the disk.
class PostgresServer {
  public:
    /// The one server; throws std::runtime_error, with what the server said, when it does not start.
    static PostgresServer& running();
    /// The connection string of a new, empty database.
    std::string new_database();
    PostgresServer(const PostgresServer&) = delete;
    PostgresServer& operator=(const PostgresServer&) = delete;

  private:
    PostgresServer();
    ~PostgresServer();
    void run(const std::string& command) const;

    std::filesystem::path folder_, programs_;
    int databases_ = 0;
};

}  // namespace tonemend::testing
