// SPDX-License-Identifier: Apache-2.0
// Sanitizers look for other faults and take ten times as long: the small sites do for them.
#pragma once

#ifdef __has_feature
#if __has_feature(address_sanitizer)
#define DUSKWIRE_UNDER_SANITIZERS
#endif
#endif
