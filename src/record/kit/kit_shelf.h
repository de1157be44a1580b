#pragma once

#include <string>
#include <vector>

#include "advise/board/board.h"
#include "advise/kit/kit.h"
#include "record/store/job_store.h"

namespace tonemend {

struct KeptKit {
    std::string uid;
    Kit kit;
    std::string text = {};  ///< as it was read from the store
};

struct KeptBoard {
    std::string uid, kit;  ///< `kit`: uid
    SampleBoard board;
    std::string text = {};  ///< as it was read from the store
};

/// Kits and sample boards in a store of jobs. What a function has returned is on the disk. Not from several
/// threads at once, and the store must outlive it. All throw InputError.
class KitShelf {
  public:
    explicit KitShelf(JobStore& store) : store_(&store) {}

    std::vector<KeptKit> kits();
    /// By name, in either case; with an empty name the only one. Throws when there is none, or which is not
    /// said.
    KeptKit find_kit(const std::string& name);
    /// A new, empty kit. Throws when one of that name is there.
    KeptKit start_kit(const std::string& name);
    /// Throws when another program changed it since it was read.
    void save(KeptKit& kit);
    void take_away(const KeptKit& kit);

    std::vector<KeptBoard> boards(const KeptKit& kit);
    KeptBoard find_board(const KeptKit& kit, const std::string& name);
    /// Throws when the kit has one of that name, or the grit is out of 40 to 1000.
    KeptBoard start_board(const KeptKit& kit, const SampleBoard& board);
    /// Throws when another program changed it since it was read.
    void save(KeptBoard& board);
    void take_away(const KeptBoard& board);

  private:
    JobStore* store_;
};

}  // namespace tonemend
