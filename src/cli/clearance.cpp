#include "service/clearance.h"
#include "cli/commands.h"
#include "cli/options.h"
#include "formats/json/after.h"
#include "formats/json/clearance.h"
#include "formats/json/emptied.h"
#include "formats/json/next_check.h"
#include "formats/json/release.h"
#include "formats/text/after.h"
#include "formats/text/clearance.h"
#include "formats/text/emptied.h"
#include "formats/text/next_check.h"
#include "formats/text/release.h"
#include "questions/clear.h"
#include "questions/emptied.h"

namespace mitefall::cli {
namespace {

using base::fail;
using base::Result;

using records::AnimalId;
using records::Collection;
using service::Situation;

/// Adds a question about today: how it is asked, and how its answer is told and written.
template <class O, class Ask, class Text, class Write>
void add_asked(CLI::App& app, Context& context, questions::Question<O> question, Ask ask, Text text,
               Write write) {
    const std::string_view name = question.name;
    const auto added = add_question(app, std::move(question));
    context.on_chosen(*added.command,
                      [&context, typed = added.typed, name, ask, text, write]() -> Result<void> {
                          auto options = typed->read();
                          if (!options) return fail(options.error());
                          options->progress = context.progress("Asking how sure we are");
                          const auto today = context.situation();
                          if (!today) return fail(today.error());
                          const auto answer = ask(**today, *options);
                          if (!answer) return fail(answer.error());
                          const Collection& names = (*today)->collection();
                          context.answer(name, text(*answer, names), [&] { return write(*answer, names); });
                          return {};
                      });
}

/// Of an answer that tells all it needs.
template <class T>
auto alone(std::string (*text)(const T&)) {
    return [text](const T& answer, const Collection&) { return text(answer); };
}
template <class T>
auto alone(formats::Json (*json)(const T&)) {
    return [json](const T& answer, const Collection&) { return json(answer); };
}

auto release_of(const Situation& today, const questions::ReleaseOptions& options) {
    return service::release_of(today, AnimalId(options.animal), options);
}

auto handover_of(const Situation& today, const questions::ReleaseOptions& options) {
    return service::handover_of(today, AnimalId(options.animal), options);
}

std::string emptied_text(const formats::EmptiedView& answer, const Collection& names) {
    return formats::emptied_text(answer, names.enclosures.at(answer.enclosure).name);
}

}  // namespace

void add_clearance_commands(CLI::App& app, Context& context) {
    add_asked(app, context, questions::clear(), service::clearance_of, formats::clearance_text,
              alone(formats::clearance_json));
    add_asked(app, context, questions::next_check(), service::next_check_of, alone(formats::next_check_text),
              alone(formats::next_check_json));
    add_asked(app, context, questions::release(), release_of, alone(formats::release_text),
              alone(formats::release_json));
    add_asked(app, context, questions::emptied(), service::emptied_of, emptied_text,
              alone(formats::emptied_json));
    add_asked(app, context, questions::keep_out(), service::keep_out_of, alone(formats::keep_out_text),
              alone(formats::keep_out_json));
    add_asked(app, context, questions::handover(), handover_of, formats::handover_text,
              formats::handover_json);
}

}  // namespace mitefall::cli
