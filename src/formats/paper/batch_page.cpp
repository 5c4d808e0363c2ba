#include "formats/paper/batch_page.h"

#include <fmt/format.h>

#include "formats/paper/qr_code.h"
#include "formats/text/bench.h"
#include "words/words.h"

namespace mitefall::formats {
namespace {

using base::fail;
using base::invalid;
using base::Result;

std::string escape(std::string_view text) {
    std::string html;
    for (const char c : text) {
        switch (c) {
            case '&': html += "&amp;"; break;
            case '<': html += "&lt;"; break;
            case '>': html += "&gt;"; break;
            case '"': html += "&quot;"; break;
            case '\'': html += "&#39;"; break;
            default: html += c;
        }
    }
    return html;
}

// Millimetres throughout: the label must fit the bottle, not the screen.
constexpr std::string_view style = R"(
body { margin: 0; font: 9pt/1.25 sans-serif; color: #000; background: #fff; }
.labels { display: flex; flex-wrap: wrap; gap: 4mm; }
.label { box-sizing: border-box; width: 90mm; height: 55mm; padding: 2.5mm; border: 0.3mm dashed #000;
  overflow: hidden; break-inside: avoid; }
.label h1 { margin: 0 0 1mm; font-size: 13pt; }
.label p { margin: 0 0 0.8mm; font-size: 7.5pt; }
.label .loud { font-weight: bold; font-size: 8pt; border: 0.5mm solid #000; padding: 0.5mm 1mm;
  display: flow-root; }
.label svg { float: right; margin: 0 0 1mm 2mm; }
.record { margin-top: 8mm; }
.record h2 { break-after: avoid; }
.record table { border-collapse: collapse; break-inside: avoid; }
.record th { text-align: left; padding: 0.5mm 4mm 0.5mm 0; vertical-align: top; }
.record pre { white-space: pre-wrap; font: inherit; margin: 0; }
.record li { margin-bottom: 0.8mm; }
.source { color: #444; }
)";

std::string_view page_size(PaperSize paper) { return paper == PaperSize::a4 ? "A4" : "letter"; }

std::string loud_line(const BatchPage& page) {
    const records::BatchMade& made = page.batch.made.value;
    if (page.comparison.standing != mixing::Standing::above) return {};
    return fmt::format("<p class=\"loud\">{}</p>",
                       escape(comparison_sentence(made.strength, page.comparison)));
}

std::string label_html(const BatchPage& page, const std::string& code) {
    const records::BatchMade& made = page.batch.made.value;
    return fmt::format(
        "<div class=\"label\">{}<h1>{} {}</h1><p><b>POISON. Not for people. Keep from children and other "
        "animals.</b></p>{}"
        "<p>{}, made up with water. Batch <b>{}</b></p><p>Made {} &nbsp; <b>Use until {}</b></p>"
        "<p>Shake before every use. Keep dark and cool. Gloves. Mist from the neck back, never head, eyes, "
        "mouth "
        "or vent. Never near tortoises, turtles, crocodilians, fish or invertebrates.</p>"
        "<p>Never down the drain, on soil or into water.</p></div>\n",
        code, escape(made.agent), escape(units::show(made.strength)), loud_line(page),
        escape(units::show(made.total, page.display)), escape(made.batch.text()),
        units::format_day(page.batch.made.day), units::format_day(made.discard_by));
}

std::string row_html(std::string_view name, const std::string& value) {
    return fmt::format("<tr><th>{}</th><td><pre>{}</pre></td></tr>\n", name, escape(value));
}

/// The stock with the figures its measuring left: what is not known of the strength is not known of it.
std::string stock_text(const records::BatchMade& made) {
    const double off = (made.high - made.low) / made.strength / 2;
    return fmt::format("{} {}, {}", made.agent, show_bottle(made.from, made.stock_strength),
                       show_within(made.stock, made.stock * off));
}

std::string discarded_text(const records::BatchOnRecord& batch) {
    if (!batch.discarded) return "not yet";
    const std::string& how = batch.discarded->value.how;
    return units::format_day(batch.discarded->day) + (how.empty() ? "" : ": " + how);
}

std::string record_html(const BatchPage& page) {
    const records::BatchMade& made = page.batch.made.value;
    std::string html =
        fmt::format("<div class=\"record\"><h2>Batch {}</h2><table>\n", escape(made.batch.text()));
    html += row_html("Journal entry", std::to_string(page.batch.made.entry));
    html += row_html("Made on", units::format_day(page.batch.made.day));
    html += row_html("Last day of use", units::format_day(made.discard_by));
    html += row_html("Stock", stock_text(made));
    html += row_html("Filled up to", units::show(made.total, page.display));
    html += row_html("Strength", fmt::format("{}, between {} and {}", units::show(made.strength),
                                             units::show(made.low), units::show(made.high)));
    html += row_html("Beside the published", comparison_sentence(made.strength, page.comparison));
    html += row_html("How", made.steps);
    html += row_html("Disposed of", discarded_text(page.batch));
    return html + "</table>\n";
}

std::string cautions_html(const BatchPage& page) {
    std::string html = "<h2>Read this first</h2><ul>\n";
    for (const safety::Caution& caution : page.cautions) {
        const std::string source = caution.source.empty() ? evidence::explain(caution.tag) : caution.source;
        html += fmt::format("<li>{} <span class=\"source\">[{}: {}]</span></li>\n",
                            escape(words::say(caution.what)), evidence::to_text(caution.tag), escape(source));
    }
    return html + "</ul></div>\n";
}

}  // namespace

std::string batch_code_text(const records::BatchOnRecord& batch) {
    const records::BatchMade& made = batch.made.value;
    return fmt::format("Mitefall batch {}\n{} {}\nmade {}\nuse until {}\njournal entry {}", made.batch.text(),
                       made.agent, units::show(made.strength), units::format_day(batch.made.day),
                       units::format_day(made.discard_by), batch.made.entry);
}

Result<std::string> batch_page(const BatchPage& page) {
    constexpr double code_mm = 27;
    constexpr int most_copies = 8;  // of 55 mm on a sheet, two beside each other
    if (page.copies < 1 || page.copies > most_copies) {
        return fail(invalid("not a number of labels for one sheet", std::to_string(page.copies),
                            fmt::format("1 to {}", most_copies), "print the sheet more than once"));
    }
    const auto code = qr_code(batch_code_text(page.batch));
    if (!code) return fail(code.error());
    std::string labels;
    for (int i = 0; i < page.copies; ++i)
        labels += label_html(page, qr_svg(*code, code_mm, "QR code of the batch"));
    return fmt::format(
        "<!doctype html>\n<html lang=\"en\"><head><meta charset=\"utf-8\"><title>Batch {}</title>\n"
        "<style>@page {{ size: {} portrait; margin: 10mm; }}{}</style></head><body>\n"
        "<div class=\"labels\">\n{}</div>\n{}{}</body></html>\n",
        escape(page.batch.made.value.batch.text()), page_size(page.paper), style, labels, record_html(page),
        cautions_html(page));
}

}  // namespace mitefall::formats
