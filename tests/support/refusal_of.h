#pragma once

#include <string>

#include "picture/input_error.h"

namespace tonemend::testing {

/// What an InputError out of `action` says; empty when there is none.
template <typename Action>
std::string refusal_of(Action action) {
    try {
        action();
    } catch (const InputError& error) {
        return error.what();
    }
    return {};
}

}  // namespace tonemend::testing
