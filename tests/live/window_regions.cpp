// How hands mark regions, and how the picture is zoomed.
#include <cmath>

#include "live/region_editor.h"
#include "live/view_transform.h"
#include "tests/catch.h"

using namespace tonemend;

namespace {

RegionEditor editor_on_picture() {
    RegionEditor editor;
    editor.set_picture(1000, 800);
    return editor;
}

void drag(RegionEditor& editor, Point from, Point to) {
    REQUIRE(editor.press(from, 10));
    editor.drag(to);
    editor.release();
}

PixelRect box(const std::optional<Region>& region) {
    REQUIRE(region);
    return bounds(*region);
}

}  // namespace

TEST_CASE("A region that is missing is made in its own half when it is asked for") {
    RegionEditor editor = editor_on_picture();
    editor.select(Role::original);
    editor.select(Role::repair);
    CHECK(box(editor.regions().original).x + box(editor.regions().original).width <= 500);
    CHECK(box(editor.regions().repair).x >= 500);
    CHECK(lies_inside(*editor.regions().repair, 1000, 800));
}

TEST_CASE("A drag beside the regions draws a new rectangle, whichever way it goes") {
    RegionEditor editor = editor_on_picture();
    editor.select(Role::original);
    drag(editor, {400, 200}, {100, 50});
    const PixelRect drawn = box(editor.regions().original);
    CHECK(drawn.x == 100);
    CHECK(drawn.y == 50);
    CHECK(drawn.width == 300);
    CHECK(drawn.height == 150);
    CHECK(is_rectangle(*editor.regions().original));
}

TEST_CASE("A rectangle stays one when a corner is pulled, and its far corner stays put") {
    RegionEditor editor = editor_on_picture();
    editor.select(Role::original);
    drag(editor, {100, 50}, {400, 200});
    drag(editor, {402, 203}, {500, 260});
    const PixelRect pulled = box(editor.regions().original);
    CHECK(is_rectangle(*editor.regions().original));
    CHECK(pulled.x == 100);
    CHECK(pulled.y == 50);
    CHECK(pulled.x + pulled.width == 500);
    CHECK(pulled.y + pulled.height == 260);
}

TEST_CASE("A region is moved by its inside, never out of the picture, and linked ones go together") {
    RegionEditor editor = editor_on_picture();
    editor.select(Role::repair);
    editor.select(Role::original);
    drag(editor, {100, 50}, {400, 200});
    const PixelRect repair = box(editor.regions().repair);
    drag(editor, {200, 100}, {220, 90});
    CHECK(box(editor.regions().original).x == 120);
    CHECK(box(editor.regions().original).y == 40);
    CHECK(box(editor.regions().repair).x == repair.x);
    editor.toggle_linked();
    drag(editor, {200, 100}, {210, 100});
    CHECK(box(editor.regions().original).x == 130);
    CHECK(box(editor.regions().repair).x == repair.x + 10);
    editor.toggle_linked();
    drag(editor, {200, 100}, {-2000, 100});
    CHECK(box(editor.regions().original).x == 0);
    CHECK(box(editor.regions().original).width == 300);
}

TEST_CASE(
    "A polygon is drawn corner by corner and closed at its first corner, one that crosses itself is given "
    "up") {
    RegionEditor editor = editor_on_picture();
    editor.select(Role::original);
    editor.next_shape();
    const auto click = [&](Point at) {
        (void)editor.press(at, 10);
        editor.release();
    };
    for (const Point at : {Point{10, 10}, Point{110, 20}, Point{60, 120}, Point{12, 11}}) click(at);
    REQUIRE(editor.regions().original);
    CHECK(editor.regions().original->corners.size() == 3);
    CHECK(editor.unfinished().empty());
    const Region before = *editor.regions().original;
    for (const Point at : {Point{500, 500}, Point{600, 600}, Point{600, 500}, Point{500, 600}}) click(at);
    editor.finish_polygon();
    CHECK(editor.regions().original->corners[0].x == before.corners[0].x);
}

TEST_CASE("A slip of the hand draws nothing, and undo goes back one change at a time") {
    RegionEditor editor = editor_on_picture();
    editor.select(Role::original);
    const PixelRect first = box(editor.regions().original);
    drag(editor, {700, 100}, {703, 102});
    CHECK(box(editor.regions().original).x == first.x);
    drag(editor, {700, 100}, {800, 200});
    REQUIRE(editor.nudge(5, 0));
    CHECK(box(editor.regions().original).x == 705);
    CHECK(editor.undo());
    CHECK(box(editor.regions().original).x == 700);
    CHECK(editor.undo());
    CHECK(box(editor.regions().original).x == first.x);
    CHECK(editor.undo());
    CHECK_FALSE(editor.regions().original);
    CHECK_FALSE(editor.undo());
}

TEST_CASE("Regions that do not fit another picture are dropped") {
    RegionEditor editor = editor_on_picture();
    editor.select(Role::original);
    editor.select(Role::repair);
    editor.set_picture(600, 800);
    CHECK(editor.regions().original);
    CHECK_FALSE(editor.regions().repair);
}

TEST_CASE("Zooming keeps the point under the pointer, and screen and picture points go there and back") {
    ViewTransform view;
    view.set(1920, 1080, {10, 20, 640, 480});
    CHECK(view.scale() == Approx(640.0 / 1920));
    const ScreenPoint pointer{200, 300};
    const Point under = view.to_picture(pointer);
    view.zoom(4, pointer);
    CHECK(view.to_picture(pointer).x == Approx(under.x).margin(1e-3));
    CHECK(view.to_picture(pointer).y == Approx(under.y).margin(1e-3));
    const ScreenPoint back = view.to_screen(view.to_picture({123, 234}));
    CHECK(back.x == Approx(123).margin(1e-3));
    CHECK(back.y == Approx(234).margin(1e-3));
    view.zoom(1e9, pointer);
    CHECK(view.scale() == Approx(16));
    view.pan(1e9F, 0);
    CHECK(view.to_picture({10, 0}).x == Approx(0).margin(1e-3));
    view.zoom(1e-9, pointer);
    CHECK(view.scale() == Approx(640.0 / 1920));
    view.actual_size();
    CHECK(view.scale() == Approx(1));
}

TEST_CASE("A bare card is four corners, clockwise from its first, and moves with no region") {
    RegionEditor editor = editor_on_picture();
    editor.select(Role::original);
    editor.select(Role::card);
    CHECK_FALSE(editor.regions().card);
    editor.toggle_linked();
    // Against the clock: the first corner stays first, the others are put in order.
    for (const Point corner : {Point{700, 100}, Point{690, 200}, Point{890, 210}, Point{900, 90}})
        editor.press(corner, 5);
    REQUIRE(editor.regions().card);
    CHECK(editor.unfinished().empty());
    const auto& corners = editor.regions().card->corners;
    REQUIRE(corners.size() == 4);
    CHECK(corners[0].x == 700);
    CHECK(corners[1].x == 900);
    CHECK(corners[3].x == 690);
    const PixelRect original = box(editor.regions().original);
    CHECK(editor.nudge(10, 0));
    CHECK(editor.regions().card->corners[0].x == 710);
    CHECK(box(editor.regions().original).x == original.x);
    // A corner is pulled alone, even of a card that lies straight.
    drag(editor, editor.regions().card->corners[2], {920, 260});
    CHECK(editor.regions().card->corners[1].x == 910);
    CHECK(editor.regions().card->corners[2].y == 260);
}

TEST_CASE("A mark that is held can be taken away and brought back") {
    RegionEditor editor = editor_on_picture();
    CHECK_FALSE(editor.remove());
    editor.select(Role::repair);
    CHECK(editor.remove());
    CHECK_FALSE(editor.regions().repair);
    CHECK_FALSE(editor.remove());
    CHECK(editor.undo());
    CHECK(editor.regions().repair);
}

TEST_CASE("One view follows another over a picture of another size, share for share") {
    ViewTransform now, before;
    now.set(1000, 800, {0, 0, 500, 400});
    before.set(2000, 1600, {600, 0, 500, 400});
    now.zoom(3, {100, 100});
    before.follow(now);
    const Point here = now.to_picture({120, 90}), there = before.to_picture({720, 90});
    CHECK(there.x == Approx(2 * here.x));
    CHECK(there.y == Approx(2 * here.y));
    now.look_at({10, 20}, 2);
    CHECK(now.to_picture({250, 200}).x == Approx(10));
    CHECK(now.to_picture({252, 200}).x == Approx(11));
}

TEST_CASE("Another mark selected while a hand holds a corner lets go of it and puts it back") {
    RegionEditor editor = editor_on_picture();
    editor.select(Role::original);
    const PixelRect before = box(editor.regions().original);
    for (const Role other : {Role::card, Role::repair}) {
        editor.select(Role::original);
        REQUIRE(editor.press(editor.regions().original->corners[2], 10));
        editor.drag({900, 700});
        editor.select(other);
        editor.drag({500, 500});
        editor.release();
        CHECK_FALSE(editor.dragging());
        CHECK(box(editor.regions().original).width == before.width);
        CHECK_FALSE(editor.regions().card);
    }
}
