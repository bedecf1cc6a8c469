# SPDX-License-Identifier: Apache-2.0
"""What has to exist: parts, counts and cut lengths."""
