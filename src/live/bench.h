#pragma once

#include <chrono>
#include <filesystem>
#include <functional>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "live/actions.h"
#include "live/coat.h"
#include "live/desk/board_desk.h"
#include "live/desk/coat_form.h"
#include "live/desk/job_desk.h"
#include "live/desk/plan_desk.h"
#include "live/drying_follower.h"
#include "live/feed.h"
#include "live/kept_picture.h"
#include "live/measure_loop.h"
#include "live/overlay_pixel.h"
#include "live/picture_mode.h"
#include "live/reading_keeper.h"
#include "live/region_editor.h"
#include "live/settings.h"
#include "live/settings_writer.h"
#include "live/tick.h"
#include "record/store/area_readings.h"

namespace tonemend {

/// What the left side of the window shows.
enum class Page { picture, keys, warnings, jobs, coat, plan, board };

/// What to start with; empty strings: as the settings say.
struct BenchOptions {
    std::string source, card;
    std::string job, store;         ///< a job's number or name; a store as parse_store_location takes it
    double tolerance = 0;           ///< 0: as the settings say
    std::vector<std::string> flat;  ///< pictures by which the light is evened out; never remembered
    std::string display;  ///< profile file of the display; "desktop": as the desktop says, from now on
    std::string calibration = {};  ///< a saved calibration; "none": the picture's own card alone, from now on
    std::string light = {};        ///< as parse_light takes it; "none": not stated, from now on
    std::optional<RepairColourants> colourants = std::nullopt;
};

/// The bench as the window holds it: source, measuring thread, regions, readings, settings; and what each
/// action does to them. Knows nothing of drawing. Belongs to the window's thread.
class Bench {
  public:
    /// `wake` is called from other threads when there is something new to draw. Throws InputError for an
    /// option that cannot be.
    Bench(const BenchOptions& options, std::function<void()> wake);
    ~Bench();
    Bench(const Bench&) = delete;
    Bench& operator=(const Bench&) = delete;

    /// Takes in what the threads have done since. Call before each drawing.
    void catch_up();
    void perform(Action action);
    /// Files dropped on the window: a picture, a video or a folder becomes the source, a card file the card.
    void accept_drop(const std::filesystem::path& path);
    /// Call after the hands have changed a region.
    void regions_changed();
    void set_window_size(int width, int height);
    void say(const std::string& notice);

    const BenchState& state() const { return *state_; }
    std::shared_ptr<const Frame> newest_frame() const { return newest_.frame; }
    std::uint64_t newest_number() const { return newest_.number; }
    const Settings& settings() const { return settings_; }
    const std::vector<Coat>& coats() const { return coats_; }
    RegionEditor& editor() { return editor_; }
    const RegionEditor& editor() const { return editor_; }
    const Feed& feed() const { return *feed_; }
    Page page() const { return page_; }
    Overlay overlay() const { return overlay_; }
    PictureMode mode() const { return mode_; }
    /// The kept reading that wipe and before-and-now hold against the present picture; null while it is being
    /// brought back, when there is none, and in the other modes.
    std::shared_ptr<const KeptPicture> before() const;
    /// Which reading that is, or why there is none; one line.
    std::string before_words() const;
    /// Index into coats() of that reading, even while it is being brought back.
    std::optional<std::size_t> before_coat() const;
    void show_before(std::size_t coat);
    /// All that speaks against the present reading, what makes it unfit first: the comparison's own warnings,
    /// and that the light is another than in the reading that wipe and before-and-now hold it against, else
    /// than in the newest one of the job.
    std::vector<Warning> warnings() const;
    /// What the display is taken to be, for people; whoever chooses it tells the bench.
    void set_display_name(const std::string& name) { display_name_ = name; }
    const std::string& display_name() const { return display_name_; }
    bool quitting() const { return quitting_; }
    /// The last notice, for as long as it is to be read; empty then.
    std::string notice() const;
    /// What to do next when there is no comparison yet: which step of how many, and words. `step` 0: all is
    /// done.
    struct Guidance {
        int step = 0, steps = 3;
        std::string name;  ///< "card", "lamp", "original", "repair"
        std::string words;
    };
    Guidance guidance() const;
    /// Whether keys are text now, which goes to type and press_desk in place of perform.
    bool typing() const;
    /// `point`: a Unicode code point.
    void type(char32_t point);
    void press_desk(DeskKey key);
    void select_on_desk(std::size_t line);
    const JobDesk& desk() const { return desk_; }
    const CoatForm& coat_form() const { return coat_form_; }
    const PlanDesk& plan_desk() const { return plan_desk_; }
    const BoardDesk& board_desk() const { return board_desk_; }
    /// Where readings go, by name; empty before the first one of a standing job.
    struct Place {
        std::string job, piece, area;
    };
    const Place& place() const { return place_; }
    /// The same in one line, for people.
    std::string place_words() const;

  private:
    enum class Done { region, reading, piece };

    void end_threads();
    void count_changes();
    void take_reading(std::optional<ReadingRole> role = std::nullopt);
    void undo();
    void step_back();
    void next_source();
    void remember_source();
    void lock_camera();
    void report_lock();
    void turn_practice(Action action);
    void take_calibration(const std::string& path);
    void state_light(const std::string& light);
    void go_to_next_light();
    std::vector<Warning> light_warnings(std::optional<std::size_t> coat) const;
    std::optional<std::size_t> newest_kept() const;
    void go_on_with_second_light();
    void watch_or_leave_drying();
    void follow_drying(const std::filesystem::path& log, const Region& repair);
    std::string go_on_with_drying();
    void end_drying();
    void go_to_next_drying_kind();
    void announce_settled();
    void scale_text(double factor);
    void start_piece();
    void choose_before(int later);
    void toggle(bool Settings::*setting, const std::string& on, const std::string& off);
    void ask_for_before();
    void open_desk(Page page, const std::function<void()>& open);
    void open_jobs();
    void open_coat();
    void press_coat(DeskKey key);
    void open_plan();
    void press_plan(DeskKey key);
    void open_board();
    void press_board(DeskKey key);
    void go_to_area(const std::string& area);
    AreaChoice area_choice() const;
    std::string& chosen_area();
    void choose_job(const std::string& job);
    void open_area();
    void name_place();
    void leave_piece();
    void note_kept(const KeepingOutcome& outcome);
    void follow_source();
    void save();
    void ask();

    std::function<void()> wake_;
    Settings settings_;
    std::filesystem::path settings_path_;
    RegionEditor editor_;
    std::vector<Coat> coats_;
    std::vector<Done> done_;
    std::string notice_;
    std::chrono::steady_clock::time_point noticed_{};
    Page page_ = Page::picture;
    Overlay overlay_ = Overlay::none;
    PictureMode mode_ = PictureMode::whole;
    std::optional<std::size_t> before_;
    bool lamp_seen_ = false;  ///< of the first walk
    std::string display_name_;
    std::vector<std::string> flat_;
    std::vector<std::string> pieces_;        ///< areas that were left for a new piece
    std::shared_ptr<const HeldLight> held_;  ///< light one; null: none
    LampSaid lamp_ = LampSaid::nothing;
    std::shared_ptr<DryingFollower> drying_;  ///< the measuring thread's once it was asked for; null: none
    bool settled_said_ = false;
    bool quitting_ = false;
    bool awaiting_lock_ = false;
    CapturedFrame newest_;
    std::shared_ptr<const BenchState> state_;
    bool changed_ = false;
    AreaChoice opened_;
    std::shared_ptr<AreaReadings> store_;
    Place place_;
    JobDesk desk_;
    CoatForm coat_form_;
    PlanDesk plan_desk_;
    BoardDesk board_desk_;
    CalibrationInputs inputs_;
    std::unique_ptr<SettingsWriter> writer_;
    std::unique_ptr<ReadingKeeper> keeper_;
    std::unique_ptr<KeptPictureLoader> kept_pictures_;
    Ticker ticker_;
    std::unique_ptr<MeasureLoop> measure_;
    std::unique_ptr<Feed> feed_;
};

}  // namespace tonemend
