#include "base/error.h"

namespace mitefall::base {

std::string Error::message() const {
    std::string text;
    if (!where.empty()) text += where + ": ";
    text += what;
    if (!value.empty()) text += " (given: " + value + ")";
    text += ".";
    if (!limit.empty()) text += " Limit: " + limit + ".";
    if (!remedy.empty()) text += " What to do: " + remedy + ".";
    return text;
}

Error invalid(std::string what, std::string value, std::string limit, std::string remedy) {
    return {ErrorKind::invalid_input, std::move(what),   std::move(value),
            std::move(limit),         std::move(remedy), {}};
}

}  // namespace mitefall::base
