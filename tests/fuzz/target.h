#pragma once

#include <cstddef>
#include <cstdint>
#include <string>
#include <vector>

/// Feeds one input to the parser under test, as libFuzzer defines it. An InputError is a good answer; any
/// other exception, a broken promise of the parser's, or a sanitizer's report is a failure and ends the
/// process.
extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size);

namespace tonemend::testing {

/// Sound inputs to start from, made at run time; the same every time.
std::vector<std::string> fuzz_seeds();

/// Ends the process with a word on stderr unless `kept`.
void require_promise(bool kept, const char* promise);

}  // namespace tonemend::testing
