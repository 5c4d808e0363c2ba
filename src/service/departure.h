#pragma once

#include <optional>
#include <vector>

#include "evidence/tables.h"
#include "records/collection.h"
#include "worklist/task.h"

// What an animal that leaves may carry to whoever takes it.
namespace mitefall::service {

/// The last day mites were seen in the room the animal lives in, while the watch there is not over.
[[nodiscard]] std::optional<units::Day> mites_in_room(const records::Animal& animal,
                                                      const records::Collection& today,
                                                      const evidence::Tables& tables);

/// What speaks against its leaving now, sentence by sentence (asked.def); nothing: it may go. `from`: where
/// it lives, of that `danger`.
[[nodiscard]] std::vector<statement::Statement> risk_of_leaving(const records::Animal& animal,
                                                                const records::EnclosureId& from,
                                                                worklist::Danger danger,
                                                                const records::Collection& today,
                                                                const evidence::Tables& tables);

/// "Mites were seen in", "may have reached" or "are not known in" that place.
[[nodiscard]] std::vector<statement::Statement> tell_danger(const statement::Names& place,
                                                            worklist::Danger danger);

}  // namespace mitefall::service
