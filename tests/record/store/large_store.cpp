// A store of many years: how long it takes to open, to search, and to go out and come back. Names are made
// up.
#include <fmt/format.h>

#include <chrono>

#include "record/export/store_json.h"
#include "tests/catch.h"
#include "tests/record/store/any_store.h"

using namespace tonemend;
using namespace tonemend::testing;

namespace {

using Clock = std::chrono::steady_clock;

constexpr int many_jobs = 5000, readings_each = 20;

double since(Clock::time_point start) {
    return std::chrono::duration<double, std::milli>(Clock::now() - start).count();
}

// Thousands of jobs at once: a sound one, again and again under names of their own.
void fill(OpenStore& store) {
    StoreWriter writer(store);
    const std::string padding(1500, 'p');
    for (int j = 0; j < many_jobs; ++j) {
        const std::string job = fmt::format("job-{:05}", j);
        const auto whole = [](int value) { return static_cast<std::int64_t>(value); };
        const std::string name = fmt::format("chair {}", j), none;
        writer.put(store_table("jobs"),
                   {job, whole(j + 1), name, none, none, "2026-01-01T00:00:00Z", none, name, none});
        writer.put(store_table("pieces"),
                   {job, job, "seat", j % 3 ? "Oak" : "Elm", none, "seat", j % 3 ? "oak" : "elm", none});
        writer.put(store_table("areas"), {job, job, "front", none, none});
        writer.put(store_table("steps"),
                   {job, job, whole(1), "dye", fmt::format("Walnut {}", j % 50), none, "2:1", whole(1),
                    whole(180), 45.0, none, none, fmt::format("walnut {}", j % 50), none});
        for (int i = 0; i < readings_each; ++i) {
            const std::string text = R"({"schema":"x","padding":")" + padding + "\"}";
            writer.put(store_table("readings"), {fmt::format("{}-{:02}", job, i),
                                                 job,
                                                 job,
                                                 whole(i + 1),
                                                 "during",
                                                 "2026-01-01T00:00:00Z",
                                                 "seat.jpg",
                                                 50.0,
                                                 10.0,
                                                 20.0,
                                                 50.5 + i,
                                                 10.0,
                                                 20.0,
                                                 0.5 + i,
                                                 0.2,
                                                 1.0,
                                                 whole(0),
                                                 {},
                                                 "x",
                                                 {},
                                                 {},
                                                 {},
                                                 {},
                                                 none,
                                                 none,
                                                 text});
        }
    }
    (void)writer.commit();
}

}  // namespace

TEST_CASE("A store of 100,000 readings in 5,000 jobs opens, is searched, and comes back from its text",
          "[.shown][size]") {
    const ScratchFolder folder;
    const StoreLocation location{folder / "jobs.sqlite", {}};
    {
        OpenStore store = open_store(location, StoreUse::keeping);
        fill(store);
    }
    const auto start = Clock::now();
    JobStore store(location, StoreUse::keeping);
    const double opened = since(start);
    double slowest = 0;
    std::size_t found = 0;
    for (const JobQuery& query :
         {JobQuery{.words = "chair 4999"}, JobQuery{.wood = "elm"}, JobQuery{.colourant = "walnut 7"},
          JobQuery{.piece = "seat"}, JobQuery{.anywhere = "walnut 49"}, JobQuery{}}) {
        const auto asked = Clock::now();
        found += store.search(query).size();
        slowest = std::max(slowest, since(asked));
    }
    fmt::print(
        "5,000 jobs, 100,000 readings: open {:.0f} ms (promised: 300), slowest search {:.0f} ms (promised: "
        "50)\n",
        opened, slowest);
    CHECK(found > 500);
    CHECK(opened <= 300);
    CHECK(slowest <= 50);
    (void)write_store_json(store.parts(), folder / "one.json", WithPictures::no);
    JobStore other({folder / "other.sqlite", {}}, StoreUse::keeping);
    (void)read_store_json(folder / "one.json", other.parts());
    (void)write_store_json(other.parts(), folder / "two.json", WithPictures::no);
    CHECK(content_of(folder / "one.json") == content_of(folder / "two.json"));
    fmt::print("out and back: {:.0f} MB, the same bytes\n",
               static_cast<double>(std::filesystem::file_size(folder / "one.json")) / 1e6);
}
