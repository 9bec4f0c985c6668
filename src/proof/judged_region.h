// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "design/design.h"
#include "scene/scene.h"

namespace belvedere::proof {

// A zone as it is judged: less its holes and, where it is a floor, less what stands there (handbook
// 19); nothing where the solid that its targets stand on is absent.
Region judgedRegion(const design::Design& design, const design::Zone& zone,
                    const design::Situation& situation, const scene::Scene& scene);

}  // namespace belvedere::proof
