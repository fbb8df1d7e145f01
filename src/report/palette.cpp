// SPDX-License-Identifier: MIT
#include "palette.h"

#include <algorithm>
#include <cmath>
#include <cstdio>

namespace ovendays::report {
namespace {

constexpr Colour kDarkInk{31, 20, 14};
constexpr Colour kWhite{255, 255, 255};

// Chooses the text colour with the higher contrast.
template <std::size_t N>
std::array<Colour, N> letters_on(const std::array<Colour, N>& grounds) {
  std::array<Colour, N> letters{};
  for (std::size_t i = 0; i < N; ++i) {
    letters[i] = contrast(grounds[i], kDarkInk) > contrast(grounds[i], kWhite) ? kDarkInk : kWhite;
  }
  return letters;
}

Palette with_letters(Palette palette) {
  palette.on_scale = letters_on(palette.scale);
  palette.on_cause = letters_on(palette.cause);
  return palette;
}

// From paper to umber. Between steps 6 and 7 the scale skips the tones on which neither ink nor
// white text reaches a contrast of 4.5.
constexpr std::array<Colour, kSteps> kLightScale = {{{250, 246, 238},
                                                     {253, 238, 205},
                                                     {251, 224, 168},
                                                     {247, 207, 130},
                                                     {240, 187, 97},
                                                     {230, 165, 74},
                                                     {216, 143, 60},
                                                     {164, 84, 30},
                                                     {140, 66, 26},
                                                     {113, 49, 22},
                                                     {84, 34, 20}}};
// On a dark page, brighter means more days.
constexpr std::array<Colour, kSteps> kDarkScale = {{{38, 31, 26},
                                                    {62, 43, 30},
                                                    {82, 51, 28},
                                                    {103, 60, 27},
                                                    {126, 70, 27},
                                                    {150, 82, 28},
                                                    {208, 134, 60},
                                                    {224, 158, 78},
                                                    {238, 184, 104},
                                                    {248, 209, 141},
                                                    {254, 232, 186}}};
}  // namespace

std::string hex(const Colour& colour) {
  char text[8];
  std::snprintf(text,
                sizeof text,
                "#%02x%02x%02x",
                static_cast<unsigned>(colour.red) & 0xFFU,
                static_cast<unsigned>(colour.green) & 0xFFU,
                static_cast<unsigned>(colour.blue) & 0xFFU);
  return text;
}

double luminance(const Colour& colour) {
  const auto linear = [](int value) {
    const double share = value / 255.0;
    return share <= 0.04045 ? share / 12.92 : std::pow((share + 0.055) / 1.055, 2.4);
  };
  return 0.2126 * linear(colour.red) + 0.7152 * linear(colour.green) + 0.0722 * linear(colour.blue);
}

double contrast(const Colour& a, const Colour& b) {
  const double one = luminance(a) + 0.05;
  const double other = luminance(b) + 0.05;
  return std::max(one, other) / std::min(one, other);
}

const Palette& light_palette() {
  static const Palette palette =
      with_letters({.ink = {43, 29, 22},
                    .soft = {93, 76, 64},
                    .paper = {255, 253, 248},
                    .band = {248, 241, 228},
                    .line = {224, 212, 192},
                    .scale = kLightScale,
                    .on_scale = {},
                    .outcome = {{{196, 112, 34}, {120, 30, 90}, {150, 130, 112}, {150, 130, 112}}},
                    .cause = {{{0, 0, 0},
                               {64, 48, 88},
                               {150, 178, 205},
                               {240, 200, 90},
                               {94, 150, 128},
                               {28, 82, 140},
                               {214, 196, 176},
                               {120, 58, 28},
                               {206, 140, 160},
                               {170, 196, 92}}},
                    .on_cause = {},
                    .sun = {214, 140, 30},
                    .shade = {92, 78, 110},
                    .sky = {86, 140, 184},
                    .dome = {232, 240, 246},
                    .hidden = {92, 78, 110},
                    // Core, vessel, oven air, liner, empty oven, outside air.
                    .trace = {{{150, 32, 28},
                               {206, 110, 20},
                               {24, 84, 132},
                               {96, 82, 72},
                               {108, 138, 164},
                               {60, 122, 92}}}});
  return palette;
}

const Palette& dark_palette() {
  static const Palette palette = with_letters(
      {.ink = {242, 233, 220},
       .soft = {196, 178, 160},
       .paper = {27, 21, 18},
       .band = {38, 31, 26},
       .line = {74, 61, 52},
       .scale = kDarkScale,
       .on_scale = {},
       .outcome = {{{232, 160, 74}, {226, 130, 196}, {158, 142, 128}, {158, 142, 128}}},
       .cause = {{{0, 0, 0},
                  {176, 158, 214},
                  {120, 150, 180},
                  {244, 210, 110},
                  {84, 140, 118},
                  {66, 118, 178},
                  {110, 96, 84},
                  {196, 104, 62},
                  {224, 164, 182},
                  {188, 208, 120}}},
       .on_cause = {},
       .sun = {244, 184, 78},
       .shade = {148, 132, 176},
       .sky = {122, 178, 222},
       .dome = {66, 78, 92},
       .hidden = {12, 9, 12},
       .trace = {{{255, 128, 112},
                  {246, 178, 92},
                  {120, 184, 236},
                  {190, 172, 156},
                  {130, 150, 170},
                  {130, 200, 160}}}});
  return palette;
}

std::size_t step_of(double share) {
  if (!(share > 0.0)) return 0;
  return 1 + static_cast<std::size_t>(std::min(share, 0.9999) * (kSteps - 1));
}

namespace {
template <std::size_t N>
std::string numbered(const char* prefix, const std::array<Colour, N>& colours) {
  std::string css;
  for (std::size_t i = 0; i < N; ++i) {
    css += std::string("--") + prefix + std::to_string(i) + ":" + hex(colours[i]) + ";";
  }
  return css;
}

std::string properties(const Palette& p) {
  return "--ink:" + hex(p.ink) + ";--soft:" + hex(p.soft) + ";--paper:" + hex(p.paper) +
         ";--band:" + hex(p.band) + ";--line:" + hex(p.line) + ";--sun:" + hex(p.sun) +
         ";--shade:" + hex(p.shade) + ";--sky:" + hex(p.sky) + ";--dome:" + hex(p.dome) +
         ";--hidden:" + hex(p.hidden) + ";" + numbered("s", p.scale) + numbered("t", p.on_scale) +
         numbered("o", p.outcome) + numbered("c", p.cause) + numbered("k", p.on_cause) +
         numbered("l", p.trace);
}
}  // namespace

std::string palette_css(const std::string& selector) {
  return selector + "{" + properties(light_palette()) +
         "}\n@media screen and (prefers-color-scheme:dark){" + selector + "{" +
         properties(dark_palette()) + "}}\n";
}
}  // namespace ovendays::report
