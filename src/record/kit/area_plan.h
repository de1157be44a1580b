#pragma once

#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "advise/board/guide.h"
#include "advise/schedule/missing_jar.h"
#include "advise/schedule/schedule.h"
#include "record/kit/job_lessons.h"
#include "record/kit/kit_shelf.h"

namespace tonemend {

/// What a plan is to be made with, beside what the store holds.
struct PlanWishes {
    std::string kit;     ///< name; empty: the only one
    std::string finish;  ///< name; empty: that which is on, else the kit's first clear coat
    FinishFacts finish_facts;
    bool as_they_are = false;  ///< both bare, or both finished: held against each other so
    std::size_t most_steps = 5;
    double tolerance = 1;
    bool read_other_jobs = true;  ///< learn from every job in which the kit's jars were used
};

/// A coat that was put on and read: what had been foretold, by what was known before, and what came.
struct ForetoldAndCame {
    std::vector<AppliedCoat> coats;
    LookForecast foretold;
    ReadLook came;
    double de2000 = 0;    ///< between the two, of the whole
    bool inside = false;  ///< L*, a*, b* each within the 95 % interval
};

/// All that a plan for one area is made of, and the plan.
struct AreaPlan {
    Job job;
    Piece piece;
    Area area;
    Kit kit;
    ModelJars jars;
    AreaLessons lessons;
    std::shared_ptr<const ColourantModel> model;
    std::shared_ptr<const FinishTable> finish;  ///< null: bare is held against bare, or finish against finish
    std::string finish_name;                    ///< empty: none
    int finish_pairs = 0;                       ///< that were learnt from
    int board_grit = 150;  ///< of the newest coat read on this wood, for when the job does not say
    int coats_seen = 0, coats_on_wood = 0;  ///< readings of coats that were learnt from; on this wood
    std::shared_ptr<const SecondLook>
        second;                 ///< null: not read under a second, stated light since the last coat
    std::string second_light;   ///< that light
    std::vector<bool> tried;    ///< whether a coat of it was read, of each of the model's colourants
    ScheduleQuestion question;  ///< points into this plan
    CoatMove now;
    std::vector<Schedule> schedules;  ///< best first; empty: nothing makes it better
    /// How near the kit could get, were nothing uncertain, and what is missing then (target minus that).
    struct Nearest {
        double de2000 = 0;
        std::array<double, 3> missing{};
    };
    std::optional<Nearest> nearest;         ///< when it is not there yet
    std::optional<MissingJar> missing;      ///< when that is not near enough
    std::vector<StripAdvice> check_strips;  ///< to make first, when no coat was read on this wood
    /// Whether that is near enough to be planned for: within half as much again as the tolerance.
    bool near_enough(double de2000) const;
    /// Whether the kit cannot get near enough whatever is done.
    bool out_of_reach() const;
    std::vector<ForetoldAndCame> history;  ///< of this area's coats
};

/// Plans what to put on next in an area. Throws InputError that says what is wanting: no kit, no fit reading,
/// a coat since the newest reading, a job or area that is not there.
std::shared_ptr<const AreaPlan> plan_area(JobStore& store, const std::string& area, const PlanWishes& wishes);

/// What a coat of such a jar is called in a job.
StepKind step_kind_of(KitKind kind);

/// How many millilitres a coat on so many square centimetres takes: 110 ml a square metre, a fifth of it for
/// cup and rag (common practice, no source).
double coat_millilitres(double square_centimetres);

}  // namespace tonemend
