#include "mutate.h"

#include <algorithm>
#include <random>

namespace tonemend::testing {
namespace {

class Mutator {
  public:
    Mutator(const std::vector<std::string>& seeds, std::uint64_t number)
        : seeds_(seeds), random_(0x9e3779b97f4a7c15u ^ number), text_(pick_seed()) {}

    std::string run() {
        for (std::uint64_t changes = 1 + below(8); changes > 0; --changes) change();
        return text_;
    }

  private:
    std::size_t below(std::size_t limit) {
        return limit == 0 ? 0 : static_cast<std::size_t>(random_() % limit);
    }
    const std::string& pick_seed() { return seeds_[below(seeds_.size())]; }
    /// Half of the places are among the first bytes, where formats keep their headers.
    std::size_t place() {
        return below(2) == 0 ? below(std::min<std::size_t>(text_.size(), 200)) : below(text_.size());
    }

    void change() {
        if (text_.empty()) text_ = pick_seed();
        switch (below(9)) {
            case 0:
            case 1:
                text_[place()] ^= static_cast<char>(1u << below(8));
                break;
            case 2:
                text_[place()] = static_cast<char>(random_());
                break;
            case 3:
            case 4:
                set_extreme();
                break;
            case 5:
                text_.resize(below(4) == 0 ? below(text_.size())
                                           : text_.size() - below(std::min<std::size_t>(text_.size(), 64)));
                break;
            case 6:
                text_.erase(place(), 1 + below(16));
                break;
            case 7:
                text_.insert(place(), text_.substr(place(), 1 + below(32)));
                break;
            default:
                splice();
                break;
        }
    }

    /// One, two or four bytes that a size, count or offset does not expect, in either byte order.
    void set_extreme() {
        static const std::string extremes[] = {std::string(1, '\0'),
                                               "\xff",
                                               "\x7f",
                                               "\x80",
                                               std::string(2, '\0'),
                                               "\xff\xff",
                                               std::string("\0\1", 2),
                                               std::string("\1\0", 2),
                                               std::string(4, '\0'),
                                               "\xff\xff\xff\xff",
                                               "\x7f\xff\xff\xff",
                                               "\xff\xff\xff\x7f",
                                               std::string("\0\0\0\1", 4),
                                               std::string("\1\0\0\0", 4),
                                               std::string("\0\1\0\0", 4),
                                               "-1",
                                               "nan",
                                               "1e9"};
        const std::string& extreme = extremes[below(std::size(extremes))];
        text_.replace(place(), extreme.size(), extreme);
    }

    void splice() {
        const std::string& other = pick_seed();
        const std::size_t from = below(other.size());
        const std::string part = other.substr(from, 1 + below(std::min<std::size_t>(other.size(), 256)));
        if (below(2) == 0) {
            text_.replace(place(), part.size(), part);
        } else {
            text_ = text_.substr(0, place()) + other.substr(from);
        }
    }

    const std::vector<std::string>& seeds_;
    std::mt19937_64 random_;
    std::string text_;
};

}  // namespace

std::string mutate(const std::vector<std::string>& seeds, std::uint64_t number) {
    return Mutator(seeds, number).run();
}

}  // namespace tonemend::testing
