#pragma once

#include <filesystem>
#include <nlohmann/json.hpp>
#include <string>
#include <vector>

#include "record/store/job_store.h"

namespace tonemend::testing {

/// The store that a command was told of, and the newest area of a job in it.
struct KeptJob {
    explicit KeptJob(const std::filesystem::path& folder, const std::string& job = "table")
        : store({folder / "jobs.sqlite", {}}, StoreUse::reading),
          area(store.find_area(store.find_job(job).uid, "")),
          readings(store.readings(area.uid)) {}
    nlohmann::json json(std::size_t index) {
        return nlohmann::json::parse(store.reading_text(readings.at(index).uid));
    }

    JobStore store;
    Area area;
    std::vector<ReadingRecord> readings;
};

/// What makes a command keep its reading in that job.
inline std::vector<std::string> keeping_in(const std::filesystem::path& folder,
                                           const std::string& job = "table") {
    return {"--job", job, "--store", folder / "jobs.sqlite"};
}

}  // namespace tonemend::testing
