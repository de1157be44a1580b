// Stores with damage at random places: looking at them and rescuing what is whole never crashes, and what was
// not hit comes back. Damage and contents are this test's own.
#include <fmt/format.h>

#include <random>

#include "record/store/rescue.h"
#include "record/store/store_check.h"
#include "tests/catch.h"
#include "tests/record/store/any_store.h"
#include "tests/support/study_size.h"

using namespace tonemend;
using namespace tonemend::testing;

namespace {

constexpr int readings_kept = 200;

/// A sound store of a few hundred pages, all in its file and nothing in its log.
std::string sound_store(const std::filesystem::path& file) {
    {
        JobStore store({file, {}}, StoreUse::keeping);
        for (int j = 0; j < 20; ++j) {
            const auto job =
                store.start_job({.name = fmt::format("job {}", j)}, {.name = "table", .wood = "oak"}, {});
            store.add_step({.area = job.area.uid, .kind = StepKind::dye, .colourant = "Walnut 4"});
            for (int i = 0; i < readings_kept / 20; ++i) {
                ReadingForStore reading =
                    reading_for(job.area.uid, i, i == 0 ? fmt::format("picture {}", j) : "");
                reading.text = R"({"schema":"x","padding":")" + std::string(1500, 'p') + "\"}";
                store.add_reading(reading);
            }
        }
        store.parts().database->rows("PRAGMA wal_checkpoint(TRUNCATE)");
    }
    return content_of(file);
}

struct Damage {
    std::size_t at = 0, length = 0;
    bool cut = false;  ///< the file ends there
};

Damage random_damage(std::mt19937& random, std::size_t size) {
    const auto below = [&](std::size_t most) {
        return std::uniform_int_distribution<std::size_t>(0, most - 1)(random);
    };
    Damage damage;
    damage.cut = below(8) == 0;
    damage.at = below(6) == 0 ? below(4096) : below(size);  // one in six hits the first page
    damage.length = std::min(size - damage.at, std::size_t{1} << below(14));
    return damage;
}

std::string damaged(std::string content, const Damage& damage, std::mt19937& random) {
    if (damage.cut) return content.substr(0, damage.at);
    for (std::size_t i = 0; i < damage.length; ++i)
        content[damage.at + i] = static_cast<char>(random() & 0xff);
    return content;
}

struct DamageCount {
    int tried = 0, opened = 0, found = 0, rescued = 0, nothing = 0;
    double saved = 0;  ///< share of the readings, over those rescued
};

DamageCount damage_many(int times) {
    const ScratchFolder folder;
    const std::string sound = sound_store(folder / "jobs.sqlite");
    std::mt19937 random(20261126);
    DamageCount count;
    for (; count.tried < times; ++count.tried) {
        const Damage damage = random_damage(random, sound.size());
        INFO("damage " << count.tried << " at " << damage.at << ", " << damage.length << " bytes, cut "
                       << damage.cut);
        put_content(folder / "jobs.sqlite", damaged(sound, damage, random));
        for (const char* part : {"jobs.sqlite-wal", "jobs.sqlite-shm", "saved.sqlite", "saved.sqlite-wal",
                                 "saved.sqlite-shm", "saved.sqlite.losses.txt"})
            std::filesystem::remove(folder / part);
        std::filesystem::remove_all(folder / "saved.sqlite.pictures");
        try {
            JobStore store({folder / "jobs.sqlite", {}}, StoreUse::reading);
            ++count.opened;
            count.found += check_store(store.parts()).faults.empty() ? 0 : 1;
            (void)store.search({.words = "job"});
        } catch (const InputError&) {
            ++count.found;
        }
        // What is rescued is the damaged file as it lay there.
        put_content(folder / "jobs.sqlite", damaged(sound, damage, random));
        try {
            const RescueOutcome outcome = rescue_store(folder / "jobs.sqlite", folder / "saved.sqlite");
            ++count.rescued;
            CHECK(std::filesystem::exists(folder / "saved.sqlite.losses.txt"));
            JobStore saved({folder / "saved.sqlite", {}}, StoreUse::reading);
            // Pictures may be lost: those alone may be missed.
            for (const std::string& fault : check_store(saved.parts()).faults) {
                INFO(fault);
                CHECK((fault.find("missing") != std::string::npos ||
                       fault.find("not what was kept") != std::string::npos));
            }
            count.saved += static_cast<double>(whole_in(
                               saved.parts().database->row("SELECT count(*) FROM readings")->at(0))) /
                           readings_kept;
        } catch (const InputError& error) {
            ++count.nothing;
            CHECK(std::string(error.what()).find('\n') == std::string::npos);
            CHECK_FALSE(std::filesystem::exists(folder / "saved.sqlite"));
        }
    }
    fmt::print(
        "{} damaged stores: {} could be opened, damage seen in {}; {} rescued with {:.1f} % of the readings "
        "on "
        "average, nothing to be had of {}\n",
        count.tried, count.opened, count.found, count.rescued, 100 * count.saved / std::max(1, count.rescued),
        count.nothing);
    return count;
}

}  // namespace

TEST_CASE("A damaged store never crashes, and what is whole of it is rescued") {
    const DamageCount count = damage_many(25);
    CHECK(count.rescued >= 20);
    CHECK(count.saved / count.rescued > 0.8);
}

TEST_CASE("Two hundred stores with random damage: no crash, what can be read is rescued",
          "[.shown][damage]") {
    const DamageCount count = damage_many(200);
    CHECK(count.rescued >= 170);
    CHECK(count.saved / count.rescued > 0.85);
}
