#include "tables/fault.h"

#include <array>

namespace mitefall::tables {
namespace {

constexpr std::array<std::string_view, 13> fault_texts{
    "there is neither an animal nor an enclosure",
    "the animal has no enclosure",
    "it is on record already",
    "it is not a number",
    "it may be two numbers: write it without a mark of thousands",
    "it is not above zero",
    "it is too heavy",
    "it cannot be",
    "it is not a day",
    "it may be two days: tell which of day and month stands first",
    "the day has not come yet",
    "it is not one of the choices",
    "it does not fit what is on record"};

}  // namespace

std::string_view describe(Fault fault) { return fault_texts[static_cast<std::size_t>(fault)]; }

}  // namespace mitefall::tables
