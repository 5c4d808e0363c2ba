#pragma once

#include "evidence/tables.h"
#include "evidence/taxa.h"

// The evidence that is built in, read once for all tests of a program.
namespace mitefall::fixtures {

inline const evidence::Tables& tables() {
    static const evidence::Tables loaded = evidence::Tables::load_embedded().value();
    return loaded;
}

inline const evidence::Taxa& taxa() {
    static const evidence::Taxa loaded = evidence::Taxa::load_embedded().value();
    return loaded;
}

}  // namespace mitefall::fixtures
