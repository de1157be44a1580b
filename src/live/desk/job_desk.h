#pragma once

#include <string>
#include <vector>

#include "live/desk/desk_key.h"
#include "live/desk/text_field.h"
#include "record/store/area_readings.h"

namespace tonemend {

/// One area of a job, as the page of jobs lists it.
struct DeskLine {
    Job job;
    Area area;
    std::string piece, wood;
    int readings = 0;
    double de2000 = 0;  ///< of the newest reading
};

/// The page of jobs: what is typed looks for jobs, and names new ones. Knows nothing of drawing. Belongs to
/// one thread.
class JobDesk {
  public:
    /// Looks into that store; `current`: the area that readings go to now.
    void open(const StoreLocation& store, const std::string& current);
    void type(char32_t point);
    void select(std::size_t line);

    /// What a key came to.
    struct Outcome {
        std::string area;   ///< readings go there from now on; empty: no change
        std::string words;  ///< for the person; empty: nothing
        bool leave = false;
    };
    /// Throws InputError when the store refuses.
    Outcome press(DeskKey key);

    const std::string& typed() const { return field_.text(); }
    const std::vector<DeskLine>& lines() const { return lines_; }
    std::size_t selected() const { return selected_; }
    const std::string& current() const { return current_; }

  private:
    void look();
    void select_area(const std::string& area);
    const DeskLine& line() const;
    Outcome start_job();
    Outcome add_area();
    Outcome close_or_open();
    Outcome copy_recipe();
    Outcome take_back_newest();

    StoreDoor door_;
    std::string current_;
    TextField field_;
    std::vector<DeskLine> lines_;
    std::size_t selected_ = 0;
};

}  // namespace tonemend
