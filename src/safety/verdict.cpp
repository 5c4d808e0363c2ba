#include "safety/verdict.h"

namespace mitefall::safety {

std::string_view describe(Ruling ruling) {
    switch (ruling) {
        case Ruling::allowed: return "allowed";
        case Ruling::bedding_only: return "treat the bedding only, not the animal";
        case Ruling::wait_until: return "wait";
        case Ruling::ask_vet: return "ask a veterinarian first";
        case Ruling::never: return "never";
    }
    return {};
}

bool permits(const Verdict& verdict) {
    if (verdict.ruling == Ruling::allowed) return true;
    return verdict.ruling == Ruling::bedding_only && verdict.method == records::Method::spray_bedding;
}

}  // namespace mitefall::safety
