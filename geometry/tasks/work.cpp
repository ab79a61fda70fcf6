#include "geometry/tasks/work.hpp"

#include <algorithm>
#include <atomic>
#include <exception>
#include <mutex>
#include <thread>
#include <vector>

namespace fairlead {

void for_each_index(const Work& work, int count, const std::function<void(int)>& task, std::string_view what) {
  std::vector<std::exception_ptr> failures(static_cast<std::size_t>(std::max(count, 0)));
  std::atomic<int> next{0};
  std::mutex telling;
  int done = 0;
  const auto tell = [&] {
    if (what.empty() || !work.progress) return;
    const std::scoped_lock one_at_a_time(telling);
    work.progress(what, static_cast<double>(++done) / count);
  };
  const auto worker = [&] {
    for (int i = next++; i < count; i = next++) {
      try {
        if (work.stop.stop_requested()) throw Cancelled{};
        task(i);
        tell();
      } catch (...) {
        failures[static_cast<std::size_t>(i)] = std::current_exception();
      }
    }
  };
  {
    const int threads = std::min(static_cast<int>(work.threads), count);
    std::vector<std::jthread> helpers;
    for (int t = 1; t < threads; ++t) helpers.emplace_back(worker);
    worker();
  }
  for (const std::exception_ptr& failure : failures)
    if (failure) std::rethrow_exception(failure);
}

}  // namespace fairlead
