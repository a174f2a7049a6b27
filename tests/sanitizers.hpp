// SPDX-License-Identifier: Apache-2.0
// Sanitizers look for other faults and take ten times as long: fewer seeds and smaller sites do for them, wherever the
// release build's tests, or a nightly run, go through all of them.
#pragma once

#ifdef __has_feature
#if __has_feature(address_sanitizer)
#define DUSKWIRE_UNDER_SANITIZERS
#endif
#endif
