#pragma once

#include <cstdint>
#include <string>
#include <vector>

namespace tonemend::testing {

/// Mutation number `number` of the seeds: one of them with one to eight small changes (bits flipped, numbers
/// set to their extremes, parts cut, doubled, or taken from another seed). The same for the same arguments.
std::string mutate(const std::vector<std::string>& seeds, std::uint64_t number);

}  // namespace tonemend::testing
