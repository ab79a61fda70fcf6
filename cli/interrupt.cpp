#include "cli/interrupt.hpp"

#include <unistd.h>

#include <csignal>
#include <string_view>
#include <thread>

#include "cli/options.hpp"

namespace fairlead::cli {

std::stop_token stop_on_interrupt() {
  // A signal handler may not touch a stop_source; a thread that waits for the signal may. It ends with the process.
  static std::stop_source* source = [] {
    auto* made = new std::stop_source;
    sigset_t signals;
    sigemptyset(&signals);
    sigaddset(&signals, SIGINT);
    sigaddset(&signals, SIGTERM);
    pthread_sigmask(SIG_BLOCK, &signals, nullptr);
    std::thread([signals, made] {
      int signal = 0;
      if (sigwait(&signals, &signal) == 0) made->request_stop();
    }).detach();
    return made;
  }();
  return source->get_token();
}

void end_on_shortened_file() {
  struct sigaction act {};
  act.sa_handler = [](int) {
    // Nothing but these two may be called from here.
    constexpr std::string_view message = "error: a scan was cut short while it was read: run again once it is whole\n";
    [[maybe_unused]] const auto written = ::write(STDERR_FILENO, message.data(), message.size());
    ::_exit(unusable);
  };
  sigemptyset(&act.sa_mask);
  ::sigaction(SIGBUS, &act, nullptr);
}

}  // namespace fairlead::cli
