#pragma once

#include "belief/belief.h"
#include "records/collection.h"
#include "scenario/history.h"

// How mites came in and where they are: what the belief says.
namespace mitefall::formats {

/// A belief and the records it was formed from; all outlive it.
struct OriginView {
    const scenario::RecordedCase& known;
    const belief::Belief& belief;
    const records::Collection& collection;
};

}  // namespace mitefall::formats
