#pragma once

#include <span>
#include <string>

#include "record/store/job_store.h"
#include "record/store/store_writer.h"
#include "tests/support/postgres_server.h"
#include "tests/support/refusal_of.h"
#include "tests/support/scratch_folder.h"

namespace tonemend::testing {

/// A new, empty store of either kind; `kind` is "sqlite" or "postgres".
struct AnyStore {
    explicit AnyStore(const std::string& kind)
        : location(kind == "sqlite" ? StoreLocation{scratch / "jobs.sqlite", {}}
                                    : StoreLocation{{}, PostgresServer::running().new_database()}) {}
    JobStore open() const { return JobStore(open_store(location, StoreUse::keeping)); }

    ScratchFolder scratch;
    StoreLocation location;
};

/// A job with one piece and one area.
struct JobAtHand {
    explicit JobAtHand(JobStore& store, const std::string& name = "Hall chair, seat") {
        job = store.start_job({.name = name, .client = "A. Client"});
        piece = store.add_piece({.job = job.uid, .name = "Hall chair", .wood = "Oak"});
        area = store.add_area({.piece = piece.uid, .name = "Seat, front left"});
    }
    Job job;
    Piece piece;
    Area area;
};

inline PictureToKeep picture_of(const std::string& content) {
    const auto bytes = std::as_bytes(std::span(content));
    return {{bytes.begin(), bytes.end()}, "png", 3, 2};
}

/// A reading with a text and, unless `content` is empty, a picture of that content.
inline ReadingForStore reading_for(const std::string& area, double de2000, const std::string& content = {}) {
    ReadingForStore reading;
    reading.record.area = area;
    reading.record.taken = "2026-11-25T12:00:00Z", reading.record.picture = "seat.jpg";
    reading.record.original = {50, 10, 20}, reading.record.repair = {50 + de2000, 10, 20};
    reading.record.de2000 = de2000, reading.record.u95 = 0.2, reading.record.software = "test";
    reading.text = R"({"schema":"tonemend.comparison/1","value":)" + std::to_string(de2000) + "}";
    if (!content.empty()) reading.annotated = picture_of(content);
    return reading;
}

}  // namespace tonemend::testing
