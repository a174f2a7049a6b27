// SPDX-License-Identifier: Apache-2.0
// Patterns and tests of text forms.
#include "formats/text_forms.hpp"

namespace duskwire::formats {

const char* pattern_of(Form form) {
#define DUSKWIRE_DATE "[0-9]{4}-(0[1-9]|1[0-2])-(0[1-9]|[12][0-9]|3[01])"
#define DUSKWIRE_CLOCK "([01][0-9]|2[0-3]):[0-5][0-9]"
  switch (form) {
    case Form::plain:
      return "^[^\\u0000-\\u0008\\u000b\\u000c\\u000e-\\u001f\\u007f]*$";
    case Form::date:
      return "^" DUSKWIRE_DATE "$";
    case Form::date_or_time:
      return "^" DUSKWIRE_DATE "(T" DUSKWIRE_CLOCK "(:[0-5][0-9])?(Z|[+-]" DUSKWIRE_CLOCK ")?)?$";
    case Form::clock:
      return "^" DUSKWIRE_CLOCK "$";
    case Form::month_day:
      return "^(0[1-9]|1[0-2])-(0[1-9]|[12][0-9]|3[01])$";
    case Form::currency:
      return "^[A-Z]{3}$";
    case Form::time_zone:
      return "^[A-Za-z0-9_+-]+(/[A-Za-z0-9_+-]+)*$";
    case Form::name:
      return "^[^\\u0000-\\u0020\\u007f]+$";
  }
  return "";
#undef DUSKWIRE_DATE
#undef DUSKWIRE_CLOCK
}

}  // namespace duskwire::formats
