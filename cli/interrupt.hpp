// Ctrl-C asks the running computation to stop.
#pragma once

#include <stop_token>

namespace fairlead::cli {

/// From the first call on, SIGINT and SIGTERM request a stop through the returned token instead of ending the
/// process; whoever computes throws Cancelled between two tasks.
std::stop_token stop_on_interrupt();

}  // namespace fairlead::cli
