#include <algorithm>

#include "records/corrections.h"
#include "service/keeper.h"

// A request that comes again, because its answer was lost, is answered as the first time.
namespace mitefall::service {
namespace {

using Answer = std::optional<std::string>;

/// What stands for a request that was taken back before it came.
bool is_taken_back(const store::Answered& answered) { return answered.asked.empty(); }

base::Error asked_otherwise(const Asked& asked, const store::Answered& answered) {
    base::Error error{base::ErrorKind::conflict,
                      "another request came with the same key before, and asked something else",
                      asked.key,
                      "a key of its own for every request that writes",
                      "load the page again, look at what is on record, and ask again",
                      "request"};
    if (!is_taken_back(answered)) return error;
    error.what = "this was taken back before it came";
    error.limit = "";
    error.remedy = "ask again, if it is meant after all";
    return error;
}

/// The key of the request at work, for as long as it is.
class AtWork {
  public:
    AtWork(std::string& place, const std::string& key) : place_(place) { place_ = key; }
    ~AtWork() { place_.clear(); }
    AtWork(const AtWork&) = delete;
    AtWork& operator=(const AtWork&) = delete;

  private:
    std::string& place_;
};

}  // namespace

Result<Answer> Keeper::answered_before(const Asked& asked) const {
    const auto answered = file_.find_answer(asked.key);
    if (!answered) return fail(answered.error());
    if (!*answered) return Answer();
    if ((*answered)->asked != asked.what) return fail(asked_otherwise(asked, **answered));
    return Answer((*answered)->answer);
}

Result<std::string> Keeper::once(const Asked& asked, const std::function<Result<std::string>()>& work) {
    return alone([&]() -> Result<std::string> {
        const auto before = answered_before(asked);
        if (!before) return fail(before.error());
        if (*before) return **before;
        const AtWork scope(request_, asked.key);
        auto answer = work();
        if (!answer) return answer;
        const auto kept = file_.keep_answer(asked.key, {asked.what, *answer});
        if (!kept) return fail(kept.error());
        return answer;
    });
}

/// A request that is still on its way must not count any more.
Result<void> Keeper::forestall(const std::string& request) {
    const auto answered = file_.find_answer(request);
    if (!answered) return fail(answered.error());
    return *answered ? Result<void>() : file_.keep_answer(request, {"", "null"});
}

Result<std::vector<records::Entry>> Keeper::withdraw_request(const std::string& request,
                                                             const std::string& reason, const Now& now) {
    return alone([&]() -> Result<std::vector<records::Entry>> {
        const auto entries = journal();
        const auto written = file_.entries_of(request);
        if (!entries) return fail(entries.error());
        if (!written) return fail(written.error());
        if (const auto kept = forestall(request); !kept) return fail(kept.error());
        std::vector<records::Entry> meant;
        for (auto entry = entries->rbegin(); entry != entries->rend(); ++entry) {
            const bool is_of = std::binary_search(written->begin(), written->end(), entry->id);
            const bool states = !std::holds_alternative<records::Withdrawn>(entry->fact);
            if (is_of && states && records::corrected_by(*entries, entry->id) == nullptr)
                meant.push_back(*entry);
        }
        return take_back(*entries, std::move(meant), reason, now);
    });
}

}  // namespace mitefall::service
