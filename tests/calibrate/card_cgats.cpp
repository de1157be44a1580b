#include "calibrate/card/cgats.h"

#include <algorithm>

#include "card_file.h"
#include "picture/input_error.h"
#include "tests/catch.h"

using namespace tonemend;
using namespace tonemend::testing;

namespace {

const std::string plain = cgats_text("SAMPLE_NAME X0 LAB_L", "white 0.1 96.5\n\"mid grey\" 0.5 -49.25e0\n");

std::string replace(std::string text, const std::string& from, const std::string& to) {
    for (std::size_t at = 0; (at = text.find(from, at)) != std::string::npos; at += to.size())
        text.replace(at, from.size(), to);
    return text;
}

void check_plain(const CgatsTable& table) {
    CHECK(table.columns == std::vector<std::string>{"SAMPLE_NAME", "X0", "LAB_L"});
    REQUIRE(table.rows.size() == 2);
    CHECK(table.rows[1][0] == "mid grey");
    CHECK(table.number(0, table.column("X0")) == 0.1);
    CHECK(table.number(0, table.column("lab_l")) == 96.5);
    CHECK(table.number(1, 2) == -49.25);
}

}  // namespace

TEST_CASE("CGATS text is read as users write it") {
    const ScratchFolder folder;
    const auto read = [&](const std::string& text) { return read_cgats(folder.write("t.txt", text)); };
    SECTION("as the standard prints it") {
        check_plain(read(plain));
    }
    SECTION("with the line ends of Windows") {
        check_plain(read(replace(plain, "\n", "\r\n")));
    }
    SECTION("with tabs between the columns") {
        check_plain(
            read(replace(replace(replace(plain, "NAME X0 ", "NAME\tX0\t"), "white 0.1 ", "white\t0.1\t"),
                         " 0.5 ", "\t0.5\t")));
    }
    SECTION("with a byte-order mark") {
        check_plain(read("\xEF\xBB\xBF" + plain));
    }
    SECTION("with comments and blank lines before the first line") {
        check_plain(read("# our own card, read in May\n\n" + plain));
    }
    SECTION("with comments within") {
        check_plain(read(replace(replace(plain, "BEGIN_DATA\n", "BEGIN_DATA\n# name, left, L*\n"), "96.5\n",
                                 "96.5 # by the window\n")));
    }
    SECTION("with no line end at the end") {
        check_plain(read(plain.substr(0, plain.size() - 1)));
    }
    SECTION("under any first line of one word") {
        check_plain(read(replace(plain, "CGATS.17", "OurCards")));
    }
    SECTION("with keywords that the standard does not know") {
        const CgatsTable table =
            read(replace(plain, "ORIGINATOR", "SHELF \"by the door\"\nLOT 12\nORIGINATOR"));
        check_plain(table);
        CHECK(std::count(table.keywords.begin(), table.keywords.end(),
                         std::pair<std::string, std::string>("SHELF", "by the door")) == 1);
    }
}

TEST_CASE("a CGATS file that cannot be read gets one line with the reader's own words") {
    const ScratchFolder folder;
    const auto error = [&](const std::string& text) {
        const auto path = folder.write("t.txt", text);
        return error_of<InputError>([&] { read_cgats(path); });
    };
    for (const std::string& text :
         {replace(plain, "NUMBER_OF_SETS 2", "NUMBER_OF_SETS 3"),
          replace(plain, "NUMBER_OF_SETS 2", "NUMBER_OF_SETS 1"),
          replace(plain, "NUMBER_OF_SETS 2", "NUMBER_OF_SETS -5"),
          replace(plain, "NUMBER_OF_SETS 2", "NUMBER_OF_SETS 99999999999"),
          replace(plain, "NUMBER_OF_FIELDS 3", "NUMBER_OF_FIELDS 4"),
          replace(plain, "NUMBER_OF_FIELDS 3\n", ""), replace(plain, "NUMBER_OF_SETS 2\n", ""),
          plain.substr(0, plain.find("END_DATA\n")), plain.substr(0, plain.size() / 2)}) {
        CAPTURE(text);
        CAPTURE(error(text));
        CHECK(error(text).find("t.txt: ") != std::string::npos);
        CHECK(error(text).find('\n') == std::string::npos);
    }
    CHECK(error(replace(plain, "NUMBER_OF_SETS 2", "NUMBER_OF_SETS 3")).find("3") != std::string::npos);
}

TEST_CASE("a written CGATS table reads back as it was") {
    const ScratchFolder folder;
    CgatsTable table;
    table.identifier = "CGATS.17";
    table.keywords = {{"ORIGINATOR", "a workshop"}, {"SHELF", "by the door"}};
    table.columns = {"SAMPLE_NAME", "LAB_L", "OUR_REMARK"};
    table.rows = {{"mid grey", "49.4961", "by hand"}, {"B2", "-0.5", "x"}};
    const auto path = folder.path() / "out.txt";
    write_cgats(table, path);
    const CgatsTable back = read_cgats(path);
    CHECK(back.identifier == table.identifier);
    CHECK(back.columns == table.columns);
    CHECK(back.rows == table.rows);
    for (const auto& keyword : table.keywords)
        CHECK(std::count(back.keywords.begin(), back.keywords.end(), keyword) == 1);
    CHECK_THROWS_AS(write_cgats(table, folder.path() / "absent" / "out.txt"), InputError);
}
