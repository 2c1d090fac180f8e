"""The plan with both numbers, as plain shapes that any writer can put on a page. Pure."""
