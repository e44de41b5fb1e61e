"""What is kept of a customer: handed out, forgotten when due, erased when they wish."""
