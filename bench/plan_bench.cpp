#include <benchmark/benchmark.h>
#include <sys/resource.h>

#include "plan/search.h"
#include "records/collection.h"
#include "shared/large_collection.h"

namespace mitefall::plan {
namespace {

/// The whole search over a breeder's collection, 12 weeks ahead, 256 draws, without clean tubs and with some.
void plan_search(benchmark::State& state) {
    const auto tables = evidence::Tables::load_embedded().value();
    const auto taxa = evidence::Taxa::load_embedded().value();
    const LargeCollection large(static_cast<int>(state.range(0)));
    const auto collection = records::collection_on(large.journal(), large_today);
    const auto known =
        scenario::case_from_records(large.journal(), large_today, tables.time("look_back").value,
                                    mites::fixed_parameters(tables))
            .value();
    const auto ensemble = mites::draw_parameters(tables, 256, 1);
    const auto belief = belief::believe_records(known, ensemble, belief::introduction_prior(tables), 1);
    const safety::Case with = safety::prepare(collection, tables, taxa);
    Setting setting{with, known, {}, large_today, tables.strength("published_strength_high").value};
    setting.limits.spare_tubs = static_cast<int>(state.range(1));
    for (auto _ : state) {
        const auto choice = choose_plan(setting, ensemble, belief, Goal{});
        state.counters["courses"] = static_cast<double>(choice->courses_tried);
        state.counters["classes"] = static_cast<double>(choice->class_count);
        state.counters["chance"] = choice->recommended.clear.mean;
    }
    rusage usage{};
    getrusage(RUSAGE_SELF, &usage);
    state.counters["peak_MiB"] = static_cast<double>(usage.ru_maxrss) / 1024;
}
BENCHMARK(plan_search)
    ->ArgNames({"enclosures", "spare_tubs"})
    ->Args({40, 0})
    ->Args({200, 0})
    ->Args({1000, 0})
    ->Args({1000, 10})
    ->Args({10000, 0})
    ->Unit(benchmark::kMillisecond)
    ->MeasureProcessCPUTime()
    ->UseRealTime()
    ->Iterations(1);

}  // namespace
}  // namespace mitefall::plan
