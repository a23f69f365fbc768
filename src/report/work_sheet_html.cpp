#include "report/work_sheet_html.h"

#include <cstdint>

#include "base/xml_text.h"

namespace crownwright::report {
namespace {

// RFC 4648, section 4.
std::string data_text(const std::string& bytes) {
  constexpr char digits[] = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
  std::string text;
  text.reserve((bytes.size() + 2) / 3 * 4);
  for (std::size_t i = 0; i < bytes.size(); i += 3) {
    std::uint32_t three = 0;
    for (std::size_t k = 0; k < 3; ++k)
      three = three << 8 | (i + k < bytes.size() ? static_cast<unsigned char>(bytes[i + k]) : 0u);
    for (std::size_t k = 0; k < 4; ++k)
      text += i + k <= bytes.size() ? digits[three >> (18 - 6 * k) & 63] : '=';
  }
  return text;
}

// Greys alone; what is bold on screen is bold on paper. Sizes are in rem so that the reader's own size holds.
constexpr char sheet_style[] =
    "body{margin:2rem auto;max-width:60rem;padding:0 1rem;font-family:'DejaVu Sans',Verdana,sans-serif;"
    "line-height:1.45;color:#111;background:#fff}"
    "h1{font-size:2rem;margin:0}h2{font-size:1.25rem;margin:1.8rem 0 .4rem;border-top:2px solid #111;"
    "padding-top:.5rem}"
    "p{margin:.3rem 0}.what{color:#333}"
    ".drawings{display:flex;flex-wrap:wrap;gap:1rem;align-items:center}"
    ".drawings svg{flex:2 1 24rem;width:100%;height:auto}.drawings img{flex:1 1 14rem;max-width:22rem;"
    "min-width:0}"
    "dl.figures{display:grid;grid-template-columns:repeat(auto-fit,minmax(11rem,1fr));gap:1rem;margin:1rem 0;"
    "border-top:2px solid #111;border-bottom:2px solid #111;padding:.6rem 0}"
    "dl.figures div{display:flex;flex-direction:column}dl.figures dd{margin:0}"
    "dd.value{font-size:2.2rem;font-weight:bold;line-height:1.2}"
    "figure{margin:1rem 0;max-width:34rem}figure svg{width:100%;height:auto}"
    "ol,ul{padding-left:1.6rem}li{margin:.35rem 0}ol.steps{font-size:1.15rem}"
    "@media "
    "print{html{font-size:75%}body{margin:0;max-width:none;padding:0}h2{break-after:avoid}li,figure{break-"
    "inside:avoid}}";

std::string html_tag(const std::string& name, const std::string& words, const std::string& more = {}) {
  std::string text = "<";
  return text.append(name)
      .append(more)
      .append(">")
      .append(xml_text(words))
      .append("</")
      .append(name)
      .append(">\n");
}

// Without the line that makes it a file of its own; with a name for who cannot see it.
std::string inline_svg(std::string svg, const std::string& says) {
  svg.erase(0, svg.find("<svg"));
  const std::string label = std::string(" role=\"img\" aria-label=\"").append(xml_text(says)).append("\"");
  return svg.insert(4, label);
}

std::string sign_words(drawings::SheetSign sign) {
  switch (sign) {
    case drawings::SheetSign::good:
      return "\u2713 ";
    case drawings::SheetSign::mind:
      return "\u25B3 ";
    case drawings::SheetSign::bad:
      break;
  }
  return "\u2717 ";
}

std::string item_of(const drawings::SheetLineOfWords& line) {
  std::string text = "<li>";
  if (!line.label.empty()) text.append("<strong>").append(xml_text(line.label)).append("</strong> ");
  return text.append(xml_text(line.words)).append("</li>\n");
}

std::string list_of(const std::string& tag, const std::string& more,
                    const std::vector<drawings::SheetLineOfWords>& lines) {
  std::string text = "<";
  text.append(tag).append(more).append(">\n");
  for (const drawings::SheetLineOfWords& line : lines) text += item_of(line);
  return text.append("</").append(tag).append(">\n");
}

std::string figures_list(const drawings::WorkSheet& sheet) {
  std::string text = "<dl class=\"figures\">\n";
  for (const drawings::SheetFigure& figure : sheet.figures) {
    text += "<div>" + html_tag("dt", figure.name);
    text += html_tag("dd", figure.value, " class=\"value\"");
    text += html_tag("dd", figure.beside) + "</div>\n";
  }
  return text + "</dl>\n";
}

std::string profile_words(const drawings::SheetProfile& profile) {
  std::string text = "The form in section:";
  for (const std::string& words : {profile.head, profile.crown, profile.rise, profile.collar, profile.edge,
                                   profile.under_edge, profile.dome_words})
    if (!words.empty()) text.append(text.back() == ':' ? " " : ", ").append(words);
  return text;
}

std::string verdict_paragraphs(const drawings::WorkSheet& sheet) {
  std::string text;
  for (const drawings::SheetVerdict& verdict : sheet.verdicts) {
    text += "<p><strong>" + xml_text(sign_words(verdict.sign) + verdict.name + ": " + verdict.verdict + ".") +
            "</strong> " + xml_text(verdict.reason) + "</p>\n";
  }
  return text;
}

std::string chart_figure(const drawings::WorkSheet& sheet) {
  if (!sheet.chart || sheet.chart->report.stations.size() < 2) return {};
  std::string says = "How the cloth is strained from the tip to the head line";
  for (const drawings::SheetVerdict& verdict : sheet.verdicts)
    if (verdict.name == "Fit") says.append(": ").append(verdict.reason);
  return "<figure>\n" + inline_svg(drawings::sheet_chart_svg(*sheet.chart, "Strain of the cloth"), says) +
         html_tag("figcaption", says) + "</figure>\n";
}

}  // namespace

std::string work_sheet_html(const drawings::WorkSheet& sheet) {
  std::string text =
      "<!DOCTYPE html>\n<html xmlns=\"http://www.w3.org/1999/xhtml\" lang=\"en\">\n<head>\n"
      "<meta charset=\"utf-8\"/>\n<meta name=\"viewport\" content=\"width=device-width, "
      "initial-scale=1\"/>\n";
  text += html_tag("title", sheet.title + ": work sheet");
  text += std::string("<style>") + sheet_style + "</style>\n</head>\n<body>\n<main>\n";
  text += html_tag("h1", sheet.title) + html_tag("p", sheet.subtitle, " class=\"what\"");
  const std::string says = profile_words(sheet.profile);
  text += "<div class=\"drawings\">\n" + inline_svg(drawings::sheet_profile_svg(sheet.profile, says), says);
  if (!sheet.picture_png.empty())
    text += "<img alt=\"The form seen from above at a slant\" src=\"data:image/png;base64," +
            data_text(sheet.picture_png) + "\"/>\n";
  text += "</div>\n" + figures_list(sheet);
  text += html_tag("h2", "Will it do?") + verdict_paragraphs(sheet) + chart_figure(sheet);
  text += html_tag("h2", "Press, in this order") + list_of("ol", " class=\"steps\"", sheet.steps);
  for (const drawings::SheetChapter& chapter : sheet.chapters)
    text += html_tag("h2", chapter.heading) + list_of("ul", "", chapter.lines);
  text += html_tag("h2", "Take care");
  std::vector<drawings::SheetLineOfWords> cautions;
  for (const std::string& caution : sheet.cautions) cautions.push_back({"", caution});
  text += list_of("ul", "", cautions);
  if (!sheet.report.empty())
    text += "<p>" + xml_text("More stands in the report, " + sheet.report + ".") + "</p>\n";
  return text + "</main>\n</body>\n</html>\n";
}

}  // namespace crownwright::report
