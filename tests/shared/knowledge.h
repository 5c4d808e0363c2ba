#pragma once

#include "service/knowledge.h"

namespace mitefall::service {

inline const Knowledge& knowledge() {
    static const Knowledge loaded = Knowledge::load().value();
    return loaded;
}

}  // namespace mitefall::service
