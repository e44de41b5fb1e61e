"""How a question is asked, and whether other words made fewer mistakes."""
