// SPDX-License-Identifier: GPL-3.0-or-later
//
// For loops over whole arrays: the compiler widens them for the processor that they run on, chosen
// once when the program starts. As nothing is contracted or reordered (-ffp-contract=off), every
// width gives the same bytes. Put before a free function whose loop is plain: contiguous arrays
// (__restrict), no branches, no calls. Sanitizers and other compilers take one width.
#pragma once

#if defined(__x86_64__) && defined(__GNUC__) && !defined(__clang__) && \
    !defined(__SANITIZE_ADDRESS__) && !defined(__SANITIZE_THREAD__)
#define BELVEDERE_ANY_WIDTH __attribute__((target_clones("arch=x86-64-v4", "avx2", "default")))
#else
#define BELVEDERE_ANY_WIDTH
#endif
