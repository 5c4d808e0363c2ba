#include "service/given.h"

#include "units/whole_days.h"

namespace mitefall::service {

Result<records::Given> given_of(const Situation& situation, const records::AnimalId& animal) {
    const auto look_back = situation.knowledge().tables.time("death_look_back").value;
    return records::given_to(animal, situation.journal(), situation.collection(),
                             units::at_least_days(look_back));
}

}  // namespace mitefall::service
