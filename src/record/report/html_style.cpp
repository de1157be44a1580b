#include "record/report/html_style.h"

namespace tonemend {
namespace {

// $name stands for a colour of the palette.
constexpr const char* style_sheet = R"css(
*{box-sizing:border-box}
html{-webkit-text-size-adjust:100%}
body{margin:0;background:$paper;color:$ink;font:16px/1.5 system-ui,"DejaVu Sans",sans-serif;font-variant-numeric:tabular-nums;overflow-wrap:break-word}
main{max-width:900px;margin:0 auto;padding:24px 16px 48px}
h1{font-size:28px;line-height:1.2;margin:4px 0 16px;color:$ink}
h2{font-size:21px;line-height:1.25;margin:44px 0 12px;padding-top:14px;border-top:2px solid $accent;color:$accent}
h3{font-size:16px;margin:26px 0 8px;color:$ink}
p{margin:8px 0}
.shop,.made,.small,figcaption{color:$faint;font-size:14px}
.shop{margin:0}
.note{white-space:pre-line}
dl{margin:8px 0;display:grid;grid-template-columns:11em 1fr;gap:5px 16px}
dt{color:$faint}
dd{margin:0;min-width:0;overflow-wrap:anywhere;white-space:pre-line}
.plate{display:flex;align-items:center;gap:14px;background:$plate;color:$ink;padding:12px 16px;margin:12px 0;-webkit-print-color-adjust:exact;print-color-adjust:exact}
.plate strong{font-size:22px;line-height:1.2}
.plate svg.mark{margin:0;width:38px;height:38px;flex:none}
.pair{display:grid;grid-template-columns:repeat(auto-fit,minmax(min(100%,300px),1fr));gap:16px 24px;margin:16px 0;align-items:start}
figure{margin:0;max-width:520px}
figure img{display:block;width:100%;height:auto}
figure figcaption{margin:0 0 4px}
.missing{border:1px solid $rule;color:$faint;padding:24px 12px;text-align:center}
svg.plot,svg.swatches{display:block;width:100%;height:auto;font-family:system-ui,"DejaVu Sans",sans-serif}
svg.swatches{margin-top:8px}
svg.mark{width:15px;height:15px;vertical-align:-2px;margin-right:6px}
table{border-collapse:collapse;width:100%;font-size:14px;line-height:1.4;margin:8px 0}
th,td{text-align:start;vertical-align:top;padding:6px 10px 6px 0;border-bottom:1px solid $rule}
td{white-space:pre-line;overflow-wrap:anywhere;min-width:4.6em}
td.number{white-space:nowrap}
td.when{overflow-wrap:normal;min-width:7.5em}
th{background:$plate;color:$ink;font-weight:600}
thead td{background:$plate}
th:first-child,td:first-child{padding-left:8px}
td:first-child{min-width:0}
table.hashes td+td span{font-family:ui-monospace,"DejaVu Sans Mono",monospace;font-size:13px}
ul{margin:8px 0;padding-left:20px}
li{margin:5px 0;overflow-wrap:anywhere}
@media screen and (max-width:640px){
main{padding:16px 14px 40px}
h1{font-size:24px}
dl{grid-template-columns:34% 1fr;gap:4px 10px}
table,tbody,tr,td{display:block}
thead{display:none}
tr{border-bottom:1px solid $rule;padding:8px 0}
td,td:first-child{display:grid;grid-template-columns:38% 1fr;gap:0 10px;border:0;padding:2px 0;min-width:0}
td::before{content:attr(data-head);color:$faint}
td.empty,td.none{display:none}
td[data-head=""]{display:block;font-weight:600}
td[data-head=""]::before{content:none}
}
@media print{
@page{size:$size;margin:15mm}
body{font-size:10pt;line-height:1.4}
main{max-width:none;padding:0}
h1{font-size:20pt}
h2{font-size:14pt;margin-top:24pt}
h3{font-size:11pt}
h2,h3{break-after:avoid}
table,.small,.shop,.made,figcaption{font-size:8.5pt}
table.hashes td+td span{font-size:8pt}
thead{display:table-header-group}
tr,figure,.plate,li{break-inside:avoid}
.pair{grid-template-columns:1fr 1fr}
figure img{width:auto;max-width:100%;max-height:115mm}
}
)css";

void replace_all(std::string& text, const std::string& what, const std::string& by) {
    for (std::size_t at = text.find(what); at != std::string::npos; at = text.find(what, at + by.size()))
        text.replace(at, what.size(), by);
}

}  // namespace

std::string html_style(const ReportPalette& palette, PaperSize paper) {
    std::string style = style_sheet;
    replace_all(style, "$paper", hex_of(palette.paper));
    replace_all(style, "$plate", hex_of(palette.plate));
    replace_all(style, "$ink", hex_of(palette.ink));
    replace_all(style, "$faint", hex_of(palette.faint));
    replace_all(style, "$accent", hex_of(palette.accent));
    replace_all(style, "$rule", hex_of(palette.rule));
    replace_all(style, "$size", sides_of(paper).style);
    return style;
}

}  // namespace tonemend
