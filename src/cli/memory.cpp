// SPDX-License-Identifier: MIT
// How jemalloc, which serves the whole program, deals with memory: it asks for big pages (a season
// touches some 60 MB once: in small pages that is 17,000 faults) and keeps what it has until the
// process ends.
extern "C" {
// NOLINTBEGIN(readability-identifier-naming): jemalloc's name for it
extern const char* const malloc_conf;
const char* const malloc_conf = "thp:always,metadata_thp:auto,dirty_decay_ms:-1,muzzy_decay_ms:-1";
// NOLINTEND(readability-identifier-naming)
}
