#pragma once

#include <string>

#include "record/store/store_writer.h"

namespace tonemend {

/// `done` as a line, below it what changed its number and what is lost; of many the first twenty.
std::string say_outcome(const CopyOutcome& outcome, const std::string& done);

}  // namespace tonemend
