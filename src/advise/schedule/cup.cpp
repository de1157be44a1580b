#include "advise/schedule/cup.h"

#include <algorithm>
#include <cassert>

namespace tonemend {
namespace {

const ShelfJar* jar_for(const MoveQuestion& question, std::size_t colourant) {
    const auto found = std::find_if(question.shelf.begin(), question.shelf.end(),
                                    [&](const ShelfJar& jar) { return jar.colourant == colourant; });
    return found == question.shelf.end() ? nullptr : &*found;
}

Cup with_more(Cup cup, const std::optional<std::size_t>& colourant, double parts) {
    if (!colourant) {
        cup.thinner += parts;
        return cup;
    }
    for (Cup::Part& part : cup.parts)
        if (part.colourant == *colourant) {
            part.parts += parts;
            return cup;
        }
    cup.parts.push_back({*colourant, parts});
    return cup;
}

}  // namespace

double Cup::total() const {
    double sum = thinner;
    for (const Part& part : parts) sum += part.parts;
    return sum;
}

std::vector<AppliedCoat> Cup::coats(const std::vector<int>& earlier) const {
    std::vector<AppliedCoat> list;
    for (const Part& part : parts)
        if (part.parts > 0) list.push_back({part.colourant, part.parts / total(), earlier[part.colourant]});
    return list;
}

CoatMove try_cup(const MoveQuestion& question, const Cup& cup) {
    return try_coats(question, cup.coats(question.earlier));
}

std::vector<CupAddition> rank_additions(const MoveQuestion& question, const Cup& cup, std::size_t most) {
    assert(cup.total() > 0 && !cup.parts.empty());
    const ShelfJar* first = jar_for(question, cup.parts.front().colourant);
    std::vector<std::optional<std::size_t>> addable{std::nullopt};
    for (const ShelfJar& jar : question.shelf)
        if (first != nullptr && (jar.colourant == first->colourant ||
                                 (!jar.mixes_with.empty() && jar.mixes_with == first->mixes_with)))
            addable.emplace_back(jar.colourant);
    std::vector<CupAddition> found;
    const double as_it_is = try_cup(question, cup).cost;
    for (const auto& colourant : addable) {
        std::optional<CupAddition> best;
        // Quarters of a part up to five times what is there: nobody measures finer, or has a larger cup.
        for (double share = 0.05; share <= 5; share *= 1.15) {
            const double parts = std::max(0.25, std::round(4 * share * cup.total()) / 4);
            CupAddition addition{colourant, parts, with_more(cup, colourant, parts), {}};
            const auto coats = addition.cup.coats(question.earlier);
            // What is added neither makes its own colourant too strong, nor thinner the whole too weak.
            double colourants = 0;
            bool allowed = true;
            for (const AppliedCoat& coat : coats) {
                colourants += coat.concentration;
                if (colourant && coat.colourant == *colourant)
                    allowed = coat.concentration <= jar_for(question, *colourant)->strongest;
            }
            if (!colourant && first != nullptr) allowed = colourants >= first->weakest;
            if (!allowed) continue;
            addition.move = try_cup(question, addition.cup);
            if (!best || addition.move.cost < best->move.cost) best = std::move(addition);
        }
        if (best && best->move.cost < as_it_is) found.push_back(std::move(*best));
    }
    std::sort(found.begin(), found.end(), [](const CupAddition& one, const CupAddition& other) {
        return one.move.cost < other.move.cost;
    });
    if (found.size() > most) found.resize(most);
    return found;
}

}  // namespace tonemend
