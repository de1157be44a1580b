#include "record/store/store_rows.h"

#include <fmt/format.h>

#include "record/store/schema.h"

namespace tonemend {
namespace {

/// A row by the names of its table's columns.
class RecordRow {
  public:
    RecordRow(std::string_view table, const SqlRow& row) : table_(&store_table(table)), row_(&row) {}

    const std::string& text(std::string_view column) const { return text_in(at(column)); }
    int whole(std::string_view column) const { return static_cast<int>(whole_in(at(column))); }
    double number(std::string_view column) const { return number_in(at(column)); }

  private:
    const SqlValue& at(std::string_view column) const { return row_->at(table_->index_of(column)); }

    const Table* table_;
    const SqlRow* row_;
};

}  // namespace

std::string select_from(std::string_view table, std::string_view condition) {
    return fmt::format("SELECT {} FROM {} WHERE {}", store_table(table).column_list(), table, condition);
}

Job to_job(const SqlRow& values) {
    const RecordRow row("jobs", values);
    return {row.text("uid"),  row.whole("number"), row.text("name"),  row.text("client"),
            row.text("note"), row.text("started"), row.text("closed")};
}

Piece to_piece(const SqlRow& values) {
    const RecordRow row("pieces", values);
    return {row.text("uid"), row.text("job"), row.text("name"), row.text("wood"), row.text("note")};
}

Area to_area(const SqlRow& values) {
    const RecordRow row("areas", values);
    return {row.text("uid"), row.text("piece"), row.text("name"), row.text("note")};
}

FinishingStep to_step(const SqlRow& values) {
    const RecordRow row("steps", values);
    FinishingStep step;
    step.uid = row.text("uid"), step.area = row.text("area"), step.place = row.whole("place");
    step.kind = parse_step_kind(row.text("kind"));
    step.colourant = row.text("colourant"), step.carrier = row.text("carrier");
    step.dilution = row.text("dilution"), step.coats = row.whole("coats"), step.grit = row.whole("grit");
    step.wait_minutes = row.number("wait_minutes");
    step.note = row.text("note"), step.done = row.text("done");
    return step;
}

ReadingRecord to_reading(const SqlRow& values) {
    const RecordRow row("readings", values);
    ReadingRecord reading;
    reading.uid = row.text("uid"), reading.area = row.text("area"), reading.number = row.whole("number");
    reading.role = parse_reading_role(row.text("role"));
    reading.taken = row.text("taken"), reading.picture = row.text("picture");
    reading.original = {row.number("original_l"), row.number("original_a"), row.number("original_b")};
    reading.repair = {row.number("repair_l"), row.number("repair_a"), row.number("repair_b")};
    reading.de2000 = row.number("de2000"), reading.u95 = row.number("u95");
    reading.tolerance = row.number("tolerance");
    reading.verdict = judge(reading.de2000, reading.u95, reading.tolerance);
    reading.unfit = row.whole("unfit") != 0;
    reading.light = row.text("light"), reading.software = row.text("software");
    reading.annotated = row.text("annotated"), reading.source = row.text("source");
    reading.calibration = row.text("calibration");
    return reading;
}

ComparisonRecord to_comparison(const SqlRow& values) {
    const RecordRow row("comparisons", values);
    return {row.text("uid"),   row.text("area"),   parse_comparison_kind(row.text("kind")),
            row.text("first"), row.text("second"), row.text("made"),
            row.text("text")};
}

void read_record(std::string_view table, const SqlRow& row) {
    if (table == "jobs") (void)to_job(row);
    if (table == "steps") (void)to_step(row);
    if (table == "readings") (void)to_reading(row);
    if (table == "comparisons") (void)to_comparison(row);
}

}  // namespace tonemend
