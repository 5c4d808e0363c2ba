#pragma once

#include "statement/statement.h"

// What the day's work can say. One row each in work.def, from which everything here is made.
namespace mitefall::worklist::work {

#define STATEMENTS "worklist/work.def"
#include "statement/kinds.def"

}  // namespace mitefall::worklist::work
