#pragma once

#include <set>
#include <string>
#include <vector>

#include "advise/kit/cautions.h"
#include "advise/kit/kit.h"
#include "record/kit/kit_shelf.h"

namespace CLI {
class App;
}

namespace tonemend {

/// A jar in a line: "Walnut 4, dye in alcohol, 0 to 9 parts alcohol, dries 15 min (usual)".
std::string say_jar(const KitJar& jar);
std::string say_kit(const Kit& kit, const std::vector<KeptBoard>& boards);
/// A board with its strips.
std::string say_board(const SampleBoard& board);

/// The cautions for these dangers, a line each.
std::string caution_block(const std::set<Danger>& dangers);

/// --kit.
void add_kit_choice(CLI::App& command, std::string& kit);

}  // namespace tonemend
