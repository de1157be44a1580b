#pragma once

#include <string>
#include <vector>

#include "record/store/store_access.h"

namespace tonemend {

/// What a look at every record and every picture found.
struct StoreCheck {
    int records = 0, pictures = 0;
    std::vector<std::string> faults;  ///< one line each; empty: all is whole
};

/// Checks the database's own structure, that each record refers only to what is there, that each picture is
/// there and is what its SHA-256 says, that the texts of readings and calibrations are what theirs say, and
/// that every record can be read. A damaged store gives faults, not an exception.
StoreCheck check_store(OpenStore& store);

}  // namespace tonemend
