#pragma once

#include <string>

#include "base/result.h"
#include "mixing/compare.h"
#include "records/collection.h"
#include "safety/verdict.h"
#include "units/text.h"

// The bottle label and the batch record as one page to print: self-contained HTML, nothing fetched.
namespace mitefall::formats {

enum class PaperSize { a4, letter };

struct BatchPage {
    const records::BatchOnRecord& batch;
    const mixing::Comparison& comparison;
    const std::vector<safety::Caution>& cautions;
    PaperSize paper = PaperSize::a4;
    int copies = 1;  ///< of the label, 1 to 8
    units::Display display;
};

/// What the code on the label says: readable by any phone, without the program and without a network.
[[nodiscard]] std::string batch_code_text(const records::BatchOnRecord& batch);

/// Labels of 90 x 55 mm to cut out, then the record of the batch.
[[nodiscard]] base::Result<std::string> batch_page(const BatchPage& page);

}  // namespace mitefall::formats
