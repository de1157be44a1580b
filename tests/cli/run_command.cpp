#include "run_command.h"

#include <fcntl.h>
#include <spawn.h>
#include <sys/wait.h>
#include <unistd.h>

#include <cerrno>
#include <cstring>
#include <memory>

#include "tests/catch.h"
#include "tests/support/scratch_folder.h"

namespace tonemend::testing {
namespace {

/// This process's environment with some of it replaced. Fontconfig keeps its caches to the end of a process:
/// the leak check of the sanitizers is told to overlook those, and nothing else.
std::vector<std::string> environment_with(const std::vector<std::string>& replaced) {
    std::vector<std::string> environment = replaced;
    for (char** entry = environ; *entry != nullptr; ++entry) {
        const std::string text = *entry;
        const std::string name = text.substr(0, text.find('=') + 1);
        bool kept = true;
        for (const std::string& other : replaced) kept = kept && !other.starts_with(name);
        if (kept && name != "NO_COLOR=") environment.push_back(text);
    }
    return environment;
}

std::vector<char*> pointers(std::vector<std::string>& texts) {
    std::vector<char*> found;
    for (std::string& text : texts) found.push_back(text.data());
    found.push_back(nullptr);
    return found;
}

/// A process that was started, and where its output goes.
struct Started {
    pid_t child = 0;
    std::string out, err;
};

Started start(const std::string& folder, const std::string& out, const std::vector<std::string>& arguments) {
    const std::string overlooked = folder + "/overlooked", err = folder + "/err";
    put_content(overlooked, "leak:libfontconfig\n");
    std::vector<std::string> words{TONEMEND_COMMAND};
    words.insert(words.end(), arguments.begin(), arguments.end());
    std::vector<std::string> environment =
        environment_with({"COLORTERM=truecolor", "TERM=xterm",
                          "LSAN_OPTIONS=print_suppressions=0:suppressions=" + overlooked});

    posix_spawn_file_actions_t actions;
    posix_spawn_file_actions_init(&actions);
    posix_spawn_file_actions_addopen(&actions, STDIN_FILENO, "/dev/null", O_RDONLY, 0);
    posix_spawn_file_actions_addopen(&actions, STDOUT_FILENO, out.c_str(), O_WRONLY | O_CREAT, 0600);
    posix_spawn_file_actions_addopen(&actions, STDERR_FILENO, err.c_str(), O_WRONLY | O_CREAT, 0600);
    Started started{0, out, err};
    const int failure = posix_spawn(&started.child, words[0].c_str(), &actions, nullptr,
                                    pointers(words).data(), pointers(environment).data());
    posix_spawn_file_actions_destroy(&actions);
    INFO(words[0] << ": " << std::strerror(failure));
    REQUIRE(failure == 0);
    return started;
}

int wait_for(const Started& started) {
    int state = 0;
    while (waitpid(started.child, &state, 0) < 0) REQUIRE(errno == EINTR);
    return WIFEXITED(state) ? WEXITSTATUS(state) : -WTERMSIG(state);
}

}  // namespace

CommandResult run_tonemend(const std::vector<std::string>& arguments) {
    return run_at_once({arguments}).front();
}

CommandResult run_tonemend_into(const std::string& device, const std::vector<std::string>& arguments) {
    const ScratchFolder folder;
    const Started started = start(folder.path(), device, arguments);
    const int status = wait_for(started);
    return {status, "", content_of(started.err)};
}

std::vector<CommandResult> run_at_once(const std::vector<std::vector<std::string>>& commands) {
    std::vector<std::unique_ptr<ScratchFolder>> folders;
    std::vector<Started> started;
    for (const auto& arguments : commands) {
        folders.push_back(std::make_unique<ScratchFolder>());
        started.push_back(start(folders.back()->path(), *folders.back() / "out", arguments));
    }
    std::vector<CommandResult> results;
    for (const Started& process : started) {
        const int status = wait_for(process);
        results.push_back({status, content_of(process.out), content_of(process.err)});
    }
    return results;
}

}  // namespace tonemend::testing
