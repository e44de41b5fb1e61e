"""What is kept of a customer in cases, own parts and answers: handed out, and erased."""
