#include "cli/interrupt.hpp"

#include <csignal>
#include <thread>

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

}  // namespace fairlead::cli
