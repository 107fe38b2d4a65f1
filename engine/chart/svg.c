#include "chart/svg.h"

#include <stdarg.h>
#include <stdint.h>
#include <string.h>
#include <unistr.h>

static void put(struct svg *svg, const char *format, ...) __attribute__((format(printf, 2, 3)));

static void put(struct svg *svg, const char *format, ...)
{
    va_list given;
    if (svg->failed)
        return;
    va_start(given, format);
    svg->failed = vfprintf(svg->out, format, given) < 0;
    va_end(given);
}

static void put_bytes(struct svg *svg, const char *start, size_t length)
{
    if (!svg->failed)
        svg->failed = fwrite(start, 1, length, svg->out) != length;
}

/* ---- texts ---- */

/* The next character; what XML cannot hold is a space, what is not UTF-8 the sign for it. */
static ucs4_t next_letter(const uint8_t **at, size_t *left)
{
    ucs4_t letter;
    int length = u8_mbtouc(&letter, *at, *left);
    *at += length;
    *left -= (size_t)length;
    bool control = letter < 0x20 || (letter >= 0x7F && letter < 0xA0);
    bool none = letter == 0xFFFE || letter == 0xFFFF;
    return control || none ? ' ' : letter;
}

static void put_letter(struct svg *svg, ucs4_t letter)
{
    uint8_t bytes[8];
    int length = u8_uctomb(bytes, letter, sizeof bytes);
    switch (letter) {
    case '&': put(svg, "&amp;"); break;
    case '<': put(svg, "&lt;"); break;
    case '>': put(svg, "&gt;"); break;
    case '"': put(svg, "&quot;"); break;
    default:
        if (length > 0)
            put_bytes(svg, (const char *)bytes, (size_t)length);
    }
}

size_t svg_letters(const char *text, size_t letters)
{
    const uint8_t *at = (const uint8_t *)text;
    size_t left = strlen(text), count = 0;
    for (; left > 0 && count < letters; count++)
        next_letter(&at, &left);
    return count;
}

static void put_text(struct svg *svg, const char *text, size_t letters)
{
    const uint8_t *at = (const uint8_t *)text;
    size_t left = strlen(text);
    bool whole = svg_letters(text, letters + 1) <= letters;
    for (size_t i = 0; left > 0 && i < (whole ? letters : letters - 1); i++)
        put_letter(svg, next_letter(&at, &left));
    if (!whole)
        put_bytes(svg, "…", strlen("…"));
}

void svg_text(struct svg *svg, double x, double y, enum svg_anchor anchor, const char *kind,
              const char *text)
{
    static const char *const anchors[] = {"start", "middle", "end"};
    put(svg, "<text class=\"%s\" x=\"%.2f\" y=\"%.2f\" text-anchor=\"%s\">", kind, x, y,
        anchors[anchor]);
    put_text(svg, text, SIZE_MAX - 1);
    put(svg, "</text>\n");
}

void svg_text_short(struct svg *svg, double x, double y, const char *kind, const char *text,
                    size_t letters)
{
    put(svg, "<text class=\"%s\" x=\"%.2f\" y=\"%.2f\">", kind, x, y);
    put_text(svg, text, letters);
    put(svg, "</text>\n");
}

/* ---- the file ---- */

static const char sheet[] = "<style>\n"
                            "text { font-family: sans-serif; fill: #111; }\n"
                            ".head { font-size: 18px; font-weight: bold; }\n"
                            ".title { font-size: 15px; font-weight: bold; }\n"
                            ".name { font-size: 13px; font-style: italic; }\n"
                            ".tick, .label { font-size: 12px; }\n"
                            ".grid { stroke: #ddd; stroke-width: 1; }\n"
                            ".axis { stroke: #111; stroke-width: 1; }\n"
                            ".mark { stroke: #111; stroke-width: 1; stroke-dasharray: 1 3; }\n"
                            ".bar { fill: #444; }\n"
                            ".below { fill: #fff; stroke: #444; stroke-width: 1.5; }\n"
                            ".gap { fill: url(#hatch); }\n"
                            ".over { font-size: 12px; paint-order: stroke; stroke: #fff; "
                            "stroke-width: 4px; }\n"
                            "</style>\n";

void svg_begin(struct svg *svg, double width, double height, const char *title)
{
    put(svg,
        "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n"
        "<svg xmlns=\"http://www.w3.org/2000/svg\" role=\"img\" width=\"%.0f\" height=\"%.0f\" "
        "viewBox=\"0 0 %.0f %.0f\">\n<title>",
        width, height, width, height);
    put_text(svg, title, SIZE_MAX - 1);
    put(svg, "</title>\n");
    put_bytes(svg, sheet, sizeof sheet - 1);
    put(svg, "<rect width=\"100%%\" height=\"100%%\" fill=\"#fff\"/>\n");
}

void svg_hatch(struct svg *svg)
{
    put(svg, "<defs><pattern id=\"hatch\" width=\"7\" height=\"7\" "
             "patternUnits=\"userSpaceOnUse\" patternTransform=\"rotate(45)\">"
             "<line y2=\"7\" stroke=\"#ccc\" stroke-width=\"2\"/></pattern></defs>\n");
}

bool svg_end(struct svg *svg)
{
    put(svg, "</svg>\n");
    return !svg->failed;
}

/* ---- shapes ---- */

void svg_line(struct svg *svg, double x1, double y1, double x2, double y2, const char *kind)
{
    put(svg, "<line class=\"%s\" x1=\"%.2f\" y1=\"%.2f\" x2=\"%.2f\" y2=\"%.2f\"/>\n", kind, x1, y1,
        x2, y2);
}

void svg_box(struct svg *svg, double x, double y, double width, double height, const char *kind)
{
    put(svg, "<rect class=\"%s\" x=\"%.2f\" y=\"%.2f\" width=\"%.2f\" height=\"%.2f\"/>\n", kind, x,
        y, width, height);
}

void svg_sample(struct svg *svg, double x1, double y, double x2, const char *grey,
                const char *dashes)
{
    put(svg,
        "<line x1=\"%.2f\" y1=\"%.2f\" x2=\"%.2f\" y2=\"%.2f\" stroke=\"%s\" stroke-width=\"2\" "
        "stroke-dasharray=\"%s\"/>\n",
        x1, y, x2, y, grey, dashes);
}

void svg_mark(struct svg *svg, double x, double y, enum svg_mark mark, const char *grey,
              bool filled)
{
    const double r = 4;
    switch (mark) {
    case SVG_ROUND: put(svg, "<circle cx=\"%.2f\" cy=\"%.2f\" r=\"%.2f\"", x, y, r); break;
    case SVG_SQUARE:
        put(svg, "<rect x=\"%.2f\" y=\"%.2f\" width=\"%.2f\" height=\"%.2f\"", x - r, y - r, 2 * r,
            2 * r);
        break;
    case SVG_TRIANGLE:
        put(svg, "<path d=\"M%.2f %.2fL%.2f %.2fL%.2f %.2fZ\"", x, y - r - 1, x + r + 1, y + r,
            x - r - 1, y + r);
        break;
    case SVG_DIAMOND:
        put(svg, "<path d=\"M%.2f %.2fL%.2f %.2fL%.2f %.2fL%.2f %.2fZ\"", x, y - r - 1, x + r + 1,
            y, x, y + r + 1, x - r - 1, y);
        break;
    }
    put(svg, " fill=\"%s\" stroke=\"%s\" stroke-width=\"1.5\"/>\n", filled ? grey : "#fff", grey);
}

void svg_path_begin(struct svg *svg)
{
    put(svg, "<path d=\"");
}

void svg_path_tread(struct svg *svg, bool joined, double left, double right, double y)
{
    if (joined)
        put(svg, "V%.2f", y);
    else
        put(svg, "M%.2f %.2f", left, y);
    put(svg, "H%.2f", right);
}

void svg_path_end(struct svg *svg, const char *grey, const char *dashes)
{
    put(svg,
        "\" fill=\"none\" stroke=\"%s\" stroke-width=\"2\" stroke-linejoin=\"round\" "
        "stroke-dasharray=\"%s\"/>\n",
        grey, dashes);
}
