#pragma once

#include "statement/statement.h"

// What a course does. One row each in told.def, from which everything here is made.
namespace mitefall::plan::told {

#define STATEMENTS "plan/told.def"
#include "statement/kinds.def"

}  // namespace mitefall::plan::told
