#include "record/export/readings_cgats.h"

#include <fmt/format.h>

#include "record/export/whole_stream.h"

namespace tonemend {
namespace {

std::vector<std::string> row_of_reading(int id, const ReadingRecord& reading, const char* part,
                                        const Lab& lab, double apart) {
    return {std::to_string(id),           fmt::format("reading {} {}", reading.number, part),
            fmt::format("{:.4f}", lab.L), fmt::format("{:.4f}", lab.a),
            fmt::format("{:.4f}", lab.b), fmt::format("{:.4f}", apart)};
}

}  // namespace

CgatsTable readings_table(const JobDossier& job) {
    CgatsTable table;
    table.identifier = "CGATS.17";
    table.keywords = {{"ORIGINATOR", "Tonemend"},
                      {"DESCRIPTOR", fmt::format("readings of job {}", job.job.number)},
                      {"CREATED", job.job.started},
                      {"ILLUMINANT", "D50"},
                      {"OBSERVER", "2"}};
    table.columns = {"SAMPLE_ID", "SAMPLE_NAME", "LAB_L", "LAB_A", "LAB_B", "LAB_DE_2000"};
    int id = 0;
    for (const JobDossier::PieceDossier& piece : job.pieces)
        for (const JobDossier::AreaDossier& area : piece.areas)
            for (const JobDossier::ReadingDossier& reading : area.readings) {
                table.rows.push_back(
                    row_of_reading(++id, reading.record, "original", reading.record.original, 0));
                table.rows.push_back(row_of_reading(++id, reading.record, "repair", reading.record.repair,
                                                    reading.record.de2000));
            }
    return table;
}

void write_readings_cgats(const JobDossier& job, const std::filesystem::path& file) {
    WholeStream out(file);
    out.stream() << cgats_text(readings_table(job));
    out.finish();
}

}  // namespace tonemend
