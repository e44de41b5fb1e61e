"""What the desk's records say once they are looked at together: pure, request by request."""
