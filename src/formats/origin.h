#pragma once

#include <string>

#include "formats/json/json.h"
#include "records/collection.h"
#include "scenario/history.h"

// How mites came in and where they are: what the belief says, for people and for programs.
namespace mitefall::formats {

/// A belief and the records it was formed from; all outlive it.
struct OriginView {
    const scenario::RecordedCase& known;
    const belief::Belief& belief;
    const records::Collection& collection;
};

/// The ways in, likeliest first, where mites are, and how far the records can be trusted.
[[nodiscard]] std::string origin_text(const OriginView& view);

/// One or two sentences for the top of a plan.
[[nodiscard]] std::string origin_line(const OriginView& view);

/// docs/schemas/origin.schema.json
[[nodiscard]] Json origin_json(const OriginView& view);

}  // namespace mitefall::formats
