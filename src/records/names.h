#pragma once

#include "base/id.h"

namespace mitefall::records {

using RoomId = base::Id<struct RoomKind>;
using EnclosureId = base::Id<struct EnclosureKind>;
using AnimalId = base::Id<struct AnimalKind>;
using ThingId = base::Id<struct ThingOfKind>;
using BatchId = base::Id<struct BatchKind>;
using StockId = base::Id<struct StockKind>;  ///< a bottle of the ingredient as it was bought

/// Number of a fact in the journal, counted from 1 and never re-used.
using FactId = long long;

}  // namespace mitefall::records
