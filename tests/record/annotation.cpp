// The annotated copy's geometry: nothing that is written covers anything else. Type of 11 pixels on a phone's
// 390 is what its own smallest captions have: common practice, no source.
#include <algorithm>

#include "record/annotation_panel.h"
#include "record/label_place.h"
#include "tests/catch.h"

using namespace tonemend;

namespace {

bool overlap(const CanvasBox& p, const CanvasBox& q) {
    constexpr double touching = 1e-6;
    return p.x < q.x + q.width - touching && q.x < p.x + p.width - touching &&
           p.y < q.y + q.height - touching && q.y < p.y + p.height - touching;
}

Comparison comparison_of(double dL, double da, double db, double u95, Verdict verdict) {
    Comparison comparison;
    comparison.original.lab = {50, 12, 24};
    comparison.repair.lab = {50 + dL, 12 + da, 24 + db};
    comparison.difference.dL = dL, comparison.difference.da = da, comparison.difference.db = db;
    comparison.difference.lab_u95 = {u95, u95, u95};
    comparison.difference.de2000 = 10.4, comparison.difference.de2000_u95 = u95;
    comparison.direction = find_direction(comparison.original.lab, comparison.repair.lab, {u95, u95, u95});
    comparison.verdict = verdict;
    return comparison;
}

std::vector<Comparison> kinds_of_comparison() {
    std::vector<Comparison> all{comparison_of(0.1, 0, 0, 0.2, Verdict::match),
                                comparison_of(1, -2, 2.9, 0.4, Verdict::close),
                                comparison_of(-12.5, -22.1, 13.4, 10.7, Verdict::undecided),
                                comparison_of(4, -3, 2, 0.3, Verdict::off)};
    Comparison unfit = all.back();
    for (int i = 0; i < 5; ++i)
        unfit.warnings.push_back({"region-clipped",
                                  "12.5 % of the repair is clipped (pure white or black) and was left out; "
                                  "change the exposure, and mind the sheen of both",
                                  i < 2});
    all.push_back(unfit);
    return all;
}

std::string all_text(const PanelLayout& layout) {
    std::string text;
    for (const PanelText& part : layout.texts) text += part.text + " ";
    return text;
}

}  // namespace

TEST_CASE("No text of the panel covers another, a vial or a colour, or leaves the panel") {
    const Canvas ruler(DisplayPicture{1, 1, {0, 0, 0}});
    for (const int width : {640, 1200, 1600}) {
        for (const Comparison& comparison : kinds_of_comparison()) {
            const PanelLayout layout = lay_out_panel(comparison, width);
            std::vector<CanvasBox> boxes{layout.shape};
            boxes.insert(boxes.end(), layout.tubes.begin(), layout.tubes.end());
            boxes.insert(boxes.end(), layout.colours.begin(), layout.colours.end());
            for (const PanelText& part : layout.texts) {
                const TextExtent extent = ruler.measure(part.text, part.style);
                boxes.push_back({part.top_left.x, part.top_left.y, extent.width, extent.height});
            }
            INFO(width << " " << all_text(layout));
            for (std::size_t i = 0; i < boxes.size(); ++i) {
                CHECK(boxes[i].x >= 0);
                CHECK(boxes[i].y >= 0);
                CHECK(boxes[i].x + boxes[i].width <= layout.width);
                CHECK(boxes[i].y + boxes[i].height <= layout.height);
                for (std::size_t k = 0; k < i; ++k) {
                    INFO(i << " over " << k);
                    CHECK_FALSE(overlap(boxes[i], boxes[k]));
                }
            }
        }
    }
}

TEST_CASE("On a phone's 390 pixels the smallest type of the panel is over 10 high, and tubes stay long") {
    for (const int width : {640, 1200, 1600}) {
        for (const Comparison& comparison : kinds_of_comparison()) {
            const PanelLayout layout = lay_out_panel(comparison, width);
            const double on_phone = 390.0 / width;
            double smallest = 1e9;
            for (const PanelText& part : layout.texts)
                smallest = std::min(smallest, part.style.size * on_phone);
            CHECK(smallest > 10.2);
            CHECK(layout.tubes[0].width > 0.25 * width);
        }
    }
}

TEST_CASE("The panel of an unfit reading says UNFIT, no verdict and no move, and every warning once") {
    const Comparison unfit = kinds_of_comparison().back();
    CHECK_THAT(all_text(lay_out_panel(unfit, 1600, "light evened out by an even sheet")),
               contains("evened out by an even sheet"));
    const std::string text = all_text(lay_out_panel(unfit, 1600));
    INFO(text);
    CHECK(text.find("10.4 ± 0.3  UNFIT") != text.npos);
    CHECK(text.find("Don't work by it") != text.npos);
    for (const char* unsaid : {"off ", "Darken", "Redden", "Reading good"})
        CHECK(text.find(unsaid) == text.npos);
    std::size_t count = 0;
    for (std::size_t at = 0; (at = text.find("change the exposure", at)) != text.npos; ++at) ++count;
    CHECK(count == unfit.warnings.size());
    for (const PanelText& part : lay_out_panel(unfit, 1600).texts)
        if (part.text.starts_with("Mind:") || part.text.starts_with("UNFIT:"))
            CHECK(part.style.paint.red == panel_paint::ink.red);
}

TEST_CASE(
    "Arrows in the vials mark the moves to make, and there are none for an unfit or a matching reading") {
    const auto has_accent = [](const Comparison& comparison) {
        const PanelLayout layout = lay_out_panel(comparison, 1600);
        DisplayPicture plain{layout.width, layout.height, {}};
        plain.rgb.assign(static_cast<std::size_t>(layout.width) * static_cast<std::size_t>(layout.height) * 3,
                         panel_grey);
        Canvas canvas(plain);
        draw_panel(canvas, comparison, layout, 0);
        const DisplayPicture drawn = canvas.picture();
        const auto code = [](double share) { return std::lround(255 * share); };
        for (std::size_t i = 0; i < drawn.rgb.size(); i += 3)
            if (std::abs(drawn.rgb[i] - code(panel_paint::accent.red)) <= 1 &&
                std::abs(drawn.rgb[i + 2] - code(panel_paint::accent.blue)) <= 1)
                return true;
        return false;
    };
    Comparison off = comparison_of(4, -3, 2, 0.3, Verdict::off);
    CHECK(has_accent(off));
    Comparison unfit = off;
    unfit.warnings = {{"region-clipped", "clipped; change the exposure", true}};
    CHECK_FALSE(has_accent(unfit));
    off.verdict = Verdict::match;
    CHECK_FALSE(has_accent(off));
}

TEST_CASE("A label stands clear of the regions, the card and other labels wherever there is room") {
    constexpr double right = 1600, bottom = 1200, width = 520, height = 110;
    struct Row {
        CanvasBox region;
        std::vector<CanvasBox> others;
    };
    const Row rows[] = {
        {{250, 690, 390, 390}, {{880, 700, 390, 390}, {300, 50, 900, 500}}},
        {{250, 690, 10, 10}, {{265, 692, 10, 10}}},                             // tiny, side by side
        {{250, 0, 390, 390}, {{650, 0, 390, 390}}},                             // at the top edge
        {{1500, 1100, 90, 90}, {{1380, 1100, 90, 90}}},                         // in a corner
        {{100, 120, 300, 900}, {{100, 0, 600, 110}, {100, 1030, 600, 170}}},    // above and below taken
        {{1200, 120, 300, 900}, {{1000, 0, 600, 110}, {1000, 1030, 600, 170}}}  // right has no room either
    };
    for (const Row& row : rows) {
        const CanvasBox label = place_label(row.region, width, height, row.others, right, bottom);
        INFO(row.region.x << " " << row.region.y << " -> " << label.x << " " << label.y);
        CHECK_FALSE(overlap(label, row.region));
        for (const CanvasBox& other : row.others) CHECK_FALSE(overlap(label, other));
        CHECK(label.x >= 0);
        CHECK(label.y >= 0);
        CHECK(label.x + label.width <= right);
        CHECK(label.y + label.height <= bottom);
    }
    // Two tiny regions side by side in a corner.
    const CanvasBox first{1500, 1150, 12, 12}, second{1450, 1150, 40, 40};
    const CanvasBox first_label = place_label(first, width, height, {second}, right, bottom);
    const CanvasBox second_label = place_label(second, width, height, {first, first_label}, right, bottom);
    CHECK_FALSE(overlap(first_label, second_label));
    for (const CanvasBox& region : {first, second})
        for (const CanvasBox& label : {first_label, second_label}) CHECK_FALSE(overlap(region, label));
    // Regions that fill the picture have their labels inside.
    const CanvasBox inside =
        place_label({0, 0, 800, 1200}, width, height, {{800, 0, 800, 1200}}, right, bottom);
    CHECK(inside.x + inside.width <= 800);
    CHECK(inside.y + inside.height <= bottom);
}
