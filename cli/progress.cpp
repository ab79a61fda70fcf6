#include "cli/progress.hpp"

#include <unistd.h>

#include <csignal>
#include <cstdio>

namespace fairlead::cli {
namespace {

bool on_terminal = false, shown = false;

/// A blocked alarm that is pending has gone off: a second has passed, and no clock was read.
bool second_passed() {
  static bool passed = false;
  sigset_t pending;
  if (!passed && sigpending(&pending) == 0) passed = sigismember(&pending, SIGALRM) == 1;
  return passed;
}

void tell(std::string_view what, double done) {
  if (!on_terminal || !second_passed()) return;
  std::fprintf(stderr, "\r\033[K%.*s: %.0f %%", static_cast<int>(what.size()), what.data(), 100 * done);
  std::fflush(stderr);
  shown = true;
}

}  // namespace

std::function<void(std::string_view, double)> tell_on_terminal() {
  on_terminal = isatty(STDERR_FILENO) == 1;
  if (on_terminal) {
    sigset_t alarm_signal;
    sigemptyset(&alarm_signal);
    sigaddset(&alarm_signal, SIGALRM);
    pthread_sigmask(SIG_BLOCK, &alarm_signal, nullptr);
    alarm(1);
  }
  return tell;
}

void clear_progress() {
  if (shown) std::fputs("\r\033[K", stderr);
  shown = false;
}

}  // namespace fairlead::cli
