#pragma once

#include "cli/drying_progress.h"

namespace tonemend {

/// The stills of a folder in the order in which they were taken; with --follow, those that come later too.
/// Throws InputError: no such folder; no still in it and none awaited.
void watch_folder(const DryingOptions& options, DryingProgress& progress);

/// A live source, read every so many seconds, each time the mean of up to 16 frames between which nothing
/// moves. A source that is gone is waited for. Throws InputError when the source can never serve.
void watch_live(const DryingOptions& options, DryingProgress& progress);

}  // namespace tonemend
