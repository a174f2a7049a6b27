// SPDX-License-Identifier: Apache-2.0
#include "failing_new.hpp"

#include <cstdlib>
#include <new>

namespace duskwire::testing {

FailingNew& failing_new() {
  static constinit thread_local FailingNew state;
  return state;
}

}  // namespace duskwire::testing

namespace {

void* allocated(std::size_t size) noexcept {
  duskwire::testing::FailingNew& state = duskwire::testing::failing_new();
  const std::int64_t number = state.calls++;
  if (state.fail_at >= 0 && (number == state.fail_at || (state.ever_after && number > state.fail_at))) return nullptr;
  void* memory = std::malloc(size == 0 ? 1 : size);
  if (memory != nullptr) ++state.live;
  return memory;
}

void* allocated_or_thrown(std::size_t size) {
  void* memory = allocated(size);
  if (memory == nullptr) throw std::bad_alloc();
  return memory;
}

void given_back(void* memory) noexcept {
  if (memory == nullptr) return;
  --duskwire::testing::failing_new().live;
  std::free(memory);
}

}  // namespace

// All of them, where the address sanitizer has its own of each.
void* operator new(std::size_t size) { return allocated_or_thrown(size); }
void* operator new[](std::size_t size) { return allocated_or_thrown(size); }
void* operator new(std::size_t size, const std::nothrow_t&) noexcept { return allocated(size); }
void* operator new[](std::size_t size, const std::nothrow_t&) noexcept { return allocated(size); }
void operator delete(void* memory) noexcept { given_back(memory); }
void operator delete[](void* memory) noexcept { given_back(memory); }
void operator delete(void* memory, std::size_t) noexcept { given_back(memory); }
void operator delete[](void* memory, std::size_t) noexcept { given_back(memory); }
void operator delete(void* memory, const std::nothrow_t&) noexcept { given_back(memory); }
void operator delete[](void* memory, const std::nothrow_t&) noexcept { given_back(memory); }
