#include "scenario/seen.h"

#include "mites/rates.h"

namespace mitefall::scenario {

double chance_to_be_seen(const CleanCheck& check, mites::Activity activity,
                         const mites::FixedParameters& fixed, const mites::MiteParameters& draw) {
    const double given = check.detection.in(draw);
    const double on_animal = check.of_light ? mites::detection_per_mite(fixed, given) : given;
    if (mites::is_on_animal(activity)) return on_animal;
    if (!mites::shows_off_animal(activity)) return 0;
    const double by_eye = on_animal * check.nest_part.in(draw);
    const double trapped = check.trap.in(draw);
    return by_eye + trapped - by_eye * trapped;
}

}  // namespace mitefall::scenario
