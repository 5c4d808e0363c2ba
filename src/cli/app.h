#pragma once

#include <string>
#include <vector>

#include "cli/context.h"

namespace mitefall::cli {

/// Runs the program on its arguments (without its name) and returns the exit code.
int run(std::vector<std::string> arguments, Surroundings& surroundings);

}  // namespace mitefall::cli
