#pragma once

#include <string>
#include <string_view>

#include "base/result.h"
#include "records/facts.h"

// A fact as it stands in the file: the name of its kind and a JSON object with units in the keys.
namespace mitefall::store {

struct FactText {
    std::string kind;
    std::string body;
};

/// Refuses what JSON cannot hold: numbers that are not finite, texts that are not UTF-8.
[[nodiscard]] base::Result<FactText> encode(const records::Fact& fact);

/// Reads back what `encode` wrote, bit for bit. Anything else is refused, naming the fact and the key.
[[nodiscard]] base::Result<records::Fact> decode(records::FactId id, std::string_view kind,
                                                 std::string_view body);

}  // namespace mitefall::store
