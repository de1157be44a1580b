#include "measure/verdict.h"

namespace tonemend {

Verdict judge(double de2000, double u95, double tolerance) {
    if (de2000 + u95 <= tolerance) return Verdict::match;
    if (de2000 - u95 > 2.0 * tolerance) return Verdict::off;
    // Written so that what is not a number is undecided too.
    if (!(u95 <= tolerance && de2000 >= 0)) return Verdict::undecided;
    return Verdict::close;
}

std::string_view name(Verdict verdict) {
    switch (verdict) {
        case Verdict::match:
            return "match";
        case Verdict::close:
            return "close";
        case Verdict::off:
            return "off";
        case Verdict::undecided:
            return "undecided";
    }
    return "";
}

}  // namespace tonemend
