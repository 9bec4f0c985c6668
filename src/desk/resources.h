// SPDX-License-Identifier: GPL-3.0-or-later
//
// What is compiled in: ":/docs/handbook.md" and the other pages of help, ":/words/*.ts".
#pragma once

namespace belvedere::desk {

void loadResources();  // as often as one likes

}  // namespace belvedere::desk
