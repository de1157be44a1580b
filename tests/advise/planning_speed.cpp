// How long a plan takes. The bound is the project's own promise.
#include <fmt/format.h>

#include <chrono>

#include "advise/schedule/schedule.h"
#include "practice/wood_shop.h"
#include "tests/advise/shop_reader.h"
#include "tests/catch.h"

using namespace tonemend;
using namespace tonemend::testing;

TEST_CASE("One plan for a kit of twelve takes half a second at most, learning included", "[.shown][speed]") {
    WoodShop shop(12, 10);
    ShopReader reader(shop, 1);
    Kit kit;
    for (int jar = 0; jar < 12; ++jar) {
        // Six and six, so that thirty pairs go into one cup.
        KitJar one = usual_jar(fmt::format("jar {}", jar + 1),
                               jar % 2 == 0 ? KitKind::dye_alcohol : KitKind::pigment_oil);
        add_jar(kit, one);
    }
    const ModelJars jars = model_jars(kit);
    std::vector<CoatObservation> strips;
    for (std::size_t jar = 0; jar < 10; ++jar) reader.make_strips(jar, 4, 3, strips);
    ShopReader::Strip board = reader.new_strip(4);
    ScheduleQuestion question;
    question.kit = &kit, question.jars = &jars;
    question.now = reader.read(board), question.place = reader.place(board);
    question.earlier.assign(12, 0);
    double slowest = 0;
    for (const Lab& target : {Lab{38, 14, 22}, Lab{45, 12, 26}, Lab{30, 10, 14}}) {
        const auto began = std::chrono::steady_clock::now();
        const ColourantModel model(jars.colourants, strips);
        const FinishTable finish(FinishModel({}, {}));
        question.model = &model, question.finish = &finish;
        question.target = plain_look(target);
        const auto schedules = plan_schedules(question);
        const std::chrono::duration<double> took = std::chrono::steady_clock::now() - began;
        slowest = std::max(slowest, took.count());
        CHECK_FALSE(schedules.empty());
    }
    fmt::print("a plan for a kit of twelve, {} strips: {:.2f} s at the most (promised: 0.5)\n", strips.size(),
               slowest);
    CHECK(slowest <= 0.5);
}
