// The drying log: whole lines come back, half a line is passed over, all else is refused.
#include "record/drying_log.h"

#include "picture/input_error.h"
#include "tests/catch.h"
#include "tests/support/scratch_folder.h"

using namespace tonemend;
using namespace tonemend::testing;

namespace {

DryingLogHead head() {
    return {"10,20,300,200", DryingKind::glaze, 90.0, "stills", Matrix3::diagonal(400, 300, 1)};
}

DryingLogEntry entry(int i) {
    return {{1.8e9 + 60.0 * i, {40.0 + i, 12.5, 24.25}, {0.4, 0.3, 0.2}},
            "still-" + std::to_string(i) + ".png"};
}

std::filesystem::path write_log(const ScratchFolder& folder, int entries) {
    const auto path = folder / "drying.log";
    DryingLogWriter writer(path);
    CHECK(!writer.found());
    writer.begin(head());
    for (int i = 0; i < entries; ++i) writer.append(entry(i), {});
    return path;
}

}  // namespace

TEST_CASE("A drying log comes back as it was written") {
    const ScratchFolder folder;
    const DryingLog log = read_drying_log(write_log(folder, 3));
    CHECK(log.head.region == "10,20,300,200");
    CHECK(log.head.kind == DryingKind::glaze);
    CHECK(log.head.label_minutes == 90.0);
    CHECK(log.head.card_to_picture.m[1][1] == 300);
    REQUIRE(log.entries.size() == 3);
    CHECK(log.entries[2].reading.seconds == 1.8e9 + 120);
    CHECK(log.entries[2].reading.lab.L == 42);
    CHECK(log.entries[2].reading.u95[1] == 0.3);
    CHECK(log.entries[2].picture == "still-2.png");
    CHECK(log.replay().report().readings == 3);
}

TEST_CASE("Half a line at the end is passed over, and the log goes on behind the whole ones") {
    const ScratchFolder folder;
    const auto path = write_log(folder, 3);
    const std::string whole = content_of(path);
    put_content(path, whole + R"({"time":"2026-11-25T10:)");
    CHECK(read_drying_log(path).entries.size() == 3);
    {
        DryingLogWriter writer(path);
        REQUIRE(writer.found());
        CHECK(writer.found()->entries.size() == 3);
        writer.append(entry(3), {});
    }
    CHECK(content_of(path).starts_with(whole));
    CHECK(read_drying_log(path).entries.size() == 4);
}

TEST_CASE("What is no drying log is refused with the line and the cure, and left as it was") {
    const ScratchFolder folder;
    const auto path = write_log(folder, 2);
    const std::string whole = content_of(path);
    struct Row {
        std::string content, says;
    };
    const Row rows[] = {
        {"shopping list\n", "line 1"},
        {"{\"schema\":\"tonemend.check/1\"}\n", "line 1"},
        {whole + "{}\n", "line 4"},
        {whole + "{\"seconds\":\"late\",\"lab\":[1,2,3],\"lab_u95\":[1,2,3]}\n" + whole, "line 4"},
        {"half", "no drying log"},
    };
    for (const Row& row : rows) {
        put_content(path, row.content);
        CHECK_THROWS_WITH(read_drying_log(path), contains(row.says));
        CHECK_THROWS_WITH(DryingLogWriter(path), contains("tonemend drying --log"));
        CHECK(content_of(path) == row.content);
    }
    CHECK_THROWS_AS(read_drying_log(folder / "none.log"), InputError);
    CHECK_THROWS_WITH(DryingLogWriter(folder / "none" / "a.log"), contains("cannot be written"));
}

TEST_CASE("Two programs do not write one drying log") {
    const ScratchFolder folder;
    const auto path = write_log(folder, 1);
    const DryingLogWriter first(path);
    CHECK_THROWS_WITH(DryingLogWriter(path), contains("another 'tonemend drying'"));
}

TEST_CASE("A log to which nothing came is not left behind") {
    const ScratchFolder folder;
    { const DryingLogWriter writer(folder / "empty.log"); }
    CHECK(!std::filesystem::exists(folder / "empty.log"));
}
