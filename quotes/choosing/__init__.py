"""What the customer chose besides the parts: another alloy, options, a rush."""
