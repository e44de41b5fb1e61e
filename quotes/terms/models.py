"""What was agreed with one customer: trade discount and deposit, dated."""
