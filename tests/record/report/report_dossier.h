#pragma once

#include <map>
#include <string>
#include <vector>

#include "record/report/report_picture.h"
#include "record/store/job_types.h"

namespace tonemend::testing {

/// A job as the store hands it over, with readings of the practice bench, and its pictures.
struct ReportDossier {
    JobDossier dossier;
    std::map<std::string, std::vector<std::byte>> files;  ///< by SHA-256

    ReportPictures pictures() const {
        return [this](const std::string& hash) -> std::optional<std::vector<std::byte>> {
            const auto found = files.find(hash);
            if (found == files.end()) return std::nullopt;
            return found->second;
        };
    }
    JobDossier::AreaDossier& area() { return dossier.pieces.at(0).areas.at(0); }
};

/// Three readings, coat after coat, with their annotated pictures, so many pixels wide (the panel below each
/// is 640 at least), a pair under two lights, and a schedule.
ReportDossier practised_job(int width = 640);
/// One reading repeated with other numbers, `readings` times, and so many steps; no pictures.
ReportDossier long_job(int readings, int steps);
/// Texts that a person may write and a renderer stumble over; one reading that is damaged.
ReportDossier awkward_job();

/// A job in which nothing is: one piece and one area, or not even those.
JobDossier empty_job(bool with_area);

/// A word without a place to break.
inline const std::string long_word = std::string(150, 'M') + "END";

}  // namespace tonemend::testing
