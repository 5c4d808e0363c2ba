#pragma once

#include <string>

#include "base/result.h"
#include "formats/words.h"
#include "records/facts.h"
#include "units/text.h"

// Turning option texts into values, with errors that name the option.
namespace mitefall::cli {

using formats::for_option;

/// One of the texts of an enumeration of the records.
template <class E>
base::Result<E> parse_choice(std::string_view option, const std::string& text) {
    if (const auto value = records::from_text<E>(text)) return *value;
    base::Error error = base::invalid("not one of the choices", text, records::list_texts<E>());
    error.where = std::string(option);
    return base::fail(std::move(error));
}

}  // namespace mitefall::cli
