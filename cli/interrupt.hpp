// Ctrl-C asks the running computation to stop, and a file that is cut short ends it.
#pragma once

#include <stop_token>

namespace fairlead::cli {

/// From the first call on, SIGINT and SIGTERM request a stop through the returned token instead of ending the
/// process; whoever computes throws Cancelled between two tasks.
std::stop_token stop_on_interrupt();

/// A scan is read where it lies on the disk. Where its file is cut short meanwhile the next look at it ends the
/// process, with a message and the status of an unusable input.
void end_on_shortened_file();

}  // namespace fairlead::cli
