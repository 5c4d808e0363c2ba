#pragma once

#include "statement/statement.h"

// What is asked before facts go on record. One row each in asked.def, from which everything here is made.
namespace mitefall::service::asked {

#define STATEMENTS "service/asked.def"
#include "statement/kinds.def"

}  // namespace mitefall::service::asked
