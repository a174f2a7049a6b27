// SPDX-License-Identifier: Apache-2.0
#include "cli/interrupt.hpp"

#include <csignal>

namespace duskwire::cli {
namespace {

volatile std::sig_atomic_t interrupted = 0;
struct sigaction before {};

void note(int) { interrupted = 1; }

}  // namespace

Interrupt::Interrupt() {
  interrupted = 0;
  struct sigaction action {};
  action.sa_handler = note;
  action.sa_flags = static_cast<int>(SA_RESETHAND | SA_RESTART);
  ::sigaction(SIGINT, &action, &before);
  // Started in the background, where nobody can press it: stays so.
  if (before.sa_handler == SIG_IGN) ::sigaction(SIGINT, &before, nullptr);
}

Interrupt::~Interrupt() { ::sigaction(SIGINT, &before, nullptr); }

bool Interrupt::met() { return interrupted != 0; }

}  // namespace duskwire::cli
