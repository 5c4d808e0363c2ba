#include "service/shopping.h"

#include "service/adopted.h"
#include "worklist/worklist.h"

namespace mitefall::service {

base::Result<worklist::Shopping> shopping_of(const Situation& situation, const worklist::Bench& bench) {
    if (!situation.collection().plan) return base::fail(no_plan());
    const plan::Setting setting = situation.setting_of_treatment();
    const auto schedule = plan::fit(worklist::assignment_on_record(situation.collection()), setting);
    return worklist::shop_for(schedule, setting, bench);
}

}  // namespace mitefall::service
