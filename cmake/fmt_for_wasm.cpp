// SPDX-License-Identifier: Apache-2.0
// The compiled half of fmt 9.1 for the WebAssembly build: Debian ships it for the machine's own architecture only. The
// instantiations are those that fmt/core.h and fmt/format.h declare as extern.
#include <fmt/format-inl.h>

FMT_BEGIN_NAMESPACE
namespace detail {

template FMT_API auto dragonbox::to_decimal(float x) noexcept -> dragonbox::decimal_fp<float>;
template FMT_API auto dragonbox::to_decimal(double x) noexcept -> dragonbox::decimal_fp<double>;
template FMT_API locale_ref::locale_ref(const std::locale& loc);
template FMT_API auto locale_ref::get<std::locale>() const -> std::locale;
template FMT_API auto thousands_sep_impl(locale_ref) -> thousands_sep_result<char>;
template FMT_API auto decimal_point_impl(locale_ref) -> char;
template FMT_API void buffer<char>::append(const char* first, const char* last);
template FMT_API void vformat_to(buffer<char>& out, string_view format, basic_format_args<FMT_BUFFER_CONTEXT(char)> args,
                                 locale_ref locale);

}  // namespace detail
FMT_END_NAMESPACE
