#pragma once

#include "measure/finish_on.h"

namespace CLI {
class App;
}

namespace tonemend {

/// --tint and --sheen of a finish.
void add_finish_facts(CLI::App& command, FinishFacts& facts);

}  // namespace tonemend
