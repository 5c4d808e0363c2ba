#include <cstdint>
#include <cstdlib>
#include <string_view>

#include "formats/casefile/case_file.h"
#include "formats/json/json.h"

using namespace mitefall;

namespace {

const mites::Ensemble& ensemble() {
    static const mites::Ensemble drawn =
        mites::draw_parameters(evidence::Tables::load_embedded().value(), branching::lane_count, 1);
    return drawn;
}

/// A promise of read_case is broken: stop where the fuzzer sees it.
void insist(bool kept) {
    if (!kept) std::abort();
}

}  // namespace

// Any bytes are either a case the model can hold, or an error that says where and what to do.
extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    const auto read = formats::read_case({reinterpret_cast<const char*>(data), size}, ensemble());
    if (read) {
        insist(scenario::check_scenario(read->scenario).has_value());
        insist(read->from >= 0 && read->to > read->from);
    } else {
        insist(!read.error().what.empty() && !read.error().where.empty() && !read.error().remedy.empty());
        insist(!formats::write_json(formats::error_envelope("forecast", read.error())).empty());
    }
    return 0;
}
