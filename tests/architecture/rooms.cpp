// The law of who may know whom: a room of src/ may include the headers of the rooms on its own link line and
// no others.
#include <filesystem>
#include <fstream>
#include <map>
#include <regex>
#include <set>
#include <sstream>
#include <string>
#include <vector>

#include "tests/catch.h"

namespace {

namespace fs = std::filesystem;
using Law = std::map<std::string, std::set<std::string>>;

Law read_law(std::istream& lines) {
    Law law;
    for (std::string line; std::getline(lines, line);) {
        const auto colon = line.find(':');
        if (colon == std::string::npos) continue;
        std::istringstream rooms(line.substr(colon + 1));
        auto& allowed = law[line.substr(0, colon)];
        for (std::string room; rooms >> room;) allowed.insert(room);
    }
    return law;
}

std::vector<std::string> find_breaches(const Law& law, const std::string& room, std::istream& source) {
    static const std::regex quoted(R"rx(^\s*#\s*include\s+"([a-z_]+)/)rx");
    std::vector<std::string> breaches;
    for (std::string line; std::getline(source, line);) {
        std::smatch match;
        if (!std::regex_search(line, match, quoted)) continue;
        const std::string other = match[1];
        if (other != room && !law.at(room).contains(other)) breaches.push_back(room + " -> " + other);
    }
    return breaches;
}

std::vector<fs::path> sources_below(const fs::path& folder) {
    std::vector<fs::path> sources;
    for (const auto& entry : fs::recursive_directory_iterator(folder)) {
        const auto extension = entry.path().extension();
        if (extension == ".h" || extension == ".cpp") sources.push_back(entry.path());
    }
    return sources;
}

const fs::path source_dir = TONEMEND_SOURCE_DIR;

}  // namespace

TEST_CASE("No room includes a room that its link line does not name") {
    std::ifstream rooms(fs::path(TONEMEND_BINARY_DIR) / "rooms.txt");
    const Law law = read_law(rooms);
    REQUIRE(law.size() >= 7);
    for (const auto& [room, allowed] : law) {
        for (const fs::path& path : sources_below(source_dir / "src" / room)) {
            std::ifstream source(path);
            const auto breaches = find_breaches(law, room, source);
            INFO(path.string());
            CHECK(breaches == std::vector<std::string>{});
        }
    }
}

TEST_CASE("Every folder of src is a room and every room a folder") {
    std::ifstream rooms(fs::path(TONEMEND_BINARY_DIR) / "rooms.txt");
    std::set<std::string> declared, present;
    for (const auto& [room, allowed] : read_law(rooms)) declared.insert(room);
    for (const auto& entry : fs::directory_iterator(source_dir / "src")) {
        if (entry.is_directory()) present.insert(entry.path().filename().string());
    }
    CHECK(declared == present);
}

TEST_CASE("No two headers define types of one name") {
    // One name for two types is undefined behaviour that no linker reports: what one of them instantiates
    // serves both.
    static const std::regex defined(R"rx(^(?:struct|class) ([A-Za-z0-9_]+)(?: final)?(?: :[^;]*)? \{)rx");
    std::map<std::string, fs::path> known;
    for (const fs::path& path : sources_below(source_dir / "src")) {
        if (path.extension() != ".h") continue;
        std::ifstream file(path);
        for (std::string line; std::getline(file, line);) {
            std::smatch match;
            if (!std::regex_search(line, match, defined)) continue;
            const auto [other, first] = known.emplace(match[1], path);
            INFO(match[1] << " is defined in " << other->second << " and in " << path);
            CHECK(first);
        }
    }
    CHECK(known.size() > 100);
}

TEST_CASE("The check on includes sees a breach") {
    std::istringstream rooms("colour: \nmeasure: colour\n");
    const Law law = read_law(rooms);
    std::istringstream upward("#include \"measure/reading.h\"\n#include \"colour/lab.h\"\n");
    CHECK(find_breaches(law, "colour", upward) == std::vector<std::string>{"colour -> measure"});
    std::istringstream downward("#include \"colour/lab.h\"\n#include \"measure/reading.h\"\n");
    CHECK(find_breaches(law, "measure", downward).empty());
}

TEST_CASE("The colour room uses the standard library alone") {
    static const std::regex angled(R"rx(^\s*#\s*include\s+<([^>]+)>)rx");
    for (const fs::path& path : sources_below(source_dir / "src/colour")) {
        std::ifstream source(path);
        for (std::string line; std::getline(source, line);) {
            std::smatch match;
            if (!std::regex_search(line, match, angled)) continue;
            const std::string header = match[1];
            INFO(path.string() << ": " << header);
            CHECK(header.find_first_of("./") == std::string::npos);
        }
    }
}

TEST_CASE("Files stay small enough to see across") {
    for (const char* folder : {"src", "tests"}) {
        for (const fs::path& path : sources_below(source_dir / folder)) {
            std::ifstream source(path);
            std::size_t lines = 0;
            for (std::string line; std::getline(source, line);) ++lines;
            INFO(path.string() << ": " << lines << " lines");
            CHECK(lines <= 500);
        }
    }
}

TEST_CASE("The top level holds what it should and nothing else") {
    const std::set<std::string> expected{
        "CMakeLists.txt", "CMakePresets.json", "DEVELOPERS.md", "LICENSE", "README.md",
        "calibration",    "samples",           "shaders",       "src",     "tests"};
    std::set<std::string> present;
    for (const auto& entry : fs::directory_iterator(source_dir)) {
        const std::string name = entry.path().filename().string();
        if (name.front() != '.' && name != "build") present.insert(name);
    }
    CHECK(present == expected);
}
