"""Reading a finished film back, by means apart from those that made it, and comparing it with what it promises."""
