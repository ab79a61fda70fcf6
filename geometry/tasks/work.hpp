// Threads, progress and cancelling, in one place.
#pragma once

#include <functional>
#include <stop_token>
#include <string_view>

namespace fairlead {

/// How a long computation runs. Results never depend on it.
struct Work {
  std::stop_token stop{};
  /// Told after a task what is being done and which share of it is; by one thread at a time.
  std::function<void(std::string_view what, double done)> progress{};
  unsigned threads = 1;
};

/// Thrown between tasks once Work::stop was requested.
struct Cancelled {};

/// Calls task(0) .. task(count - 1), each exactly once, on at most work.threads threads. Task i may write
/// only what belongs to i; whatever is summed is summed after the return, in index order. The exception of
/// the lowest failing index is rethrown. `what`: what the tasks are together, for work.progress; untold where empty.
void for_each_index(const Work& work, int count, const std::function<void(int)>& task, std::string_view what = {});

}  // namespace fairlead
