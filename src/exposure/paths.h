#pragma once

#include "statement/statement.h"

// What the tracing can say. One row each in paths.def, from which everything here is made.
namespace mitefall::exposure::tells {

#define STATEMENTS "exposure/paths.def"
#include "statement/kinds.def"

}  // namespace mitefall::exposure::tells
